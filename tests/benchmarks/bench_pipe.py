"""How long one turn of `drafthand pipe` takes, line in to line out, through a real process. A command, never a test.

    python tests/benchmarks/bench_pipe.py [CONVERSATIONS]
"""

import json
import random
import subprocess
import sys
import time
from statistics import median, quantiles

MOST_MEDIAN_MS, MOST_P99_MS = 10, 30
OPENINGS = ["im {over} over what now", "dome {dome}, want {target}", "{over} over and still rising, lit it {lit} min ago",
            "wont come up, stuck at {dome}, want {target}, both vents wide open", "thick white smoke, dome {dome}",
            "dome {dome} and swinging, i move the vents every 3 minutes", "fire went out, brisket on, meat at {meat}",
            "number two is at {dome}, want {target}. number one is fine", "flames out of the top and grease on fire"]
NEXT = ["now {dome}", "done", "now {dome} and falling", "no idea", "why", "why not burp", "what if it hits {dome}",
        "both vents shut", "top half, bottom an inch", "steady at {target}", "thanks", "what does burping do"]


def conversation(seed: int) -> list[dict]:
    """The lines of one varied conversation, reset first."""
    dice = random.Random(seed)
    figures = {"over": dice.randrange(10, 200), "dome": dice.randrange(180, 600), "target": dice.randrange(225, 400),
               "lit": dice.randrange(5, 200), "meat": dice.randrange(60, 200)}
    lines: list[dict] = [{"reset": True}, {"say": dice.choice(OPENINGS).format(**figures), "at_min": 0}]
    for turn in range(1, dice.randrange(3, 9)):
        figures["dome"] += dice.randrange(-30, 15)
        say = {"say": dice.choice(NEXT).format(**figures)}
        reading = {"reading": {"dome_f": figures["dome"], "grate_f": figures["dome"] - 20}}
        lines.append((say if dice.random() < 0.7 else reading) | {"at_min": turn * 4})
    return lines


def main(conversations: int) -> None:
    taken = []
    with subprocess.Popen([sys.executable, "-m", "advisor", "pipe"], stdin=subprocess.PIPE,
                          stdout=subprocess.PIPE) as process:
        for seed in range(conversations):
            for line in conversation(seed):
                start = time.perf_counter()
                process.stdin.write(json.dumps(line).encode() + b"\n")
                process.stdin.flush()
                answer = process.stdout.readline()
                if "reset" not in line:
                    taken.append((time.perf_counter() - start, line, answer))
        process.stdin.close()
    report(taken)


def report(taken: list[tuple[float, dict, bytes]]) -> None:
    milliseconds = [seconds * 1000 for seconds, _, _ in taken]
    refused = sum(b'"error"' in answer[:10] for _, _, answer in taken)
    print(f"{len(taken)} turns, {refused} refused")
    print(f"median {median(milliseconds):.1f} ms, at most {MOST_MEDIAN_MS}")
    print(f"p99    {quantiles(milliseconds, n=100)[98]:.1f} ms, at most {MOST_P99_MS}")
    for seconds, line, _ in sorted(taken, key=lambda turn: -turn[0])[:3]:
        print(f"  slow: {seconds * 1000:.1f} ms {json.dumps(line)}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
