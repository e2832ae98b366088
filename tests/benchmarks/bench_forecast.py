"""How long a `pipe` turn with a forecast in it takes, line in to line out, through a real process. A command, never a test.

    python tests/benchmarks/bench_forecast.py [CONVERSATIONS]
"""

import json
import random
import subprocess
import sys
import time
from statistics import median, quantiles

MOST_MEDIAN_MS, MOST_P99_MS = 50, 100


def conversation(seed: int) -> list[dict]:
    """Lines of one cook watched for an hour and more, in which every turn can be forecast."""
    dice = random.Random(seed)
    target = dice.choice((225, 250, 275, 300))
    dome = target + dice.choice((-90, -50, -30, 30, 50, 90, 120))
    lines: list[dict] = [{"reset": True}, {"say": f"dome {dome}, want {target}, bottom vent an inch, top vent {dice.randrange(5, 60)}% "
                                                  f"open, lit it {dice.randrange(1, 5)} hours ago", "at_min": 0}]
    for turn in range(1, 10):
        dome += round((target - dome) * 0.2 / 5) * 5 + dice.choice((-5, 0, 5))
        lines.append({"reading": {"dome_f": dome}, "at_min": 8 * turn})
    return lines


def main(conversations: int) -> None:
    taken, forecasts = [], 0
    with subprocess.Popen([sys.executable, "-m", "advisor", "pipe"], stdin=subprocess.PIPE,
                          stdout=subprocess.PIPE) as process:
        for seed in range(-1, conversations):
            for line in conversation(seed):
                start = time.perf_counter()
                process.stdin.write(json.dumps(line).encode() + b"\n")
                process.stdin.flush()
                answer = json.loads(process.stdout.readline())
                if seed >= 0 and "reset" not in line:  # the first conversation loads numpy
                    taken.append(1000 * (time.perf_counter() - start))
                    forecasts += answer.get("forecast") is not None
        process.stdin.close()
    print(f"{len(taken)} turns, {forecasts} with a forecast")
    print(f"median {median(taken):.1f} ms, at most {MOST_MEDIAN_MS}")
    print(f"p99    {quantiles(taken, n=100)[98]:.1f} ms, at most {MOST_P99_MS}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 30)
