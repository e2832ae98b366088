"""How many readings a second `drafthand watch` takes, and how good its alarms are. A command, never a test.

    python tests/benchmarks/bench_watch.py [COOKS] [--speed]
"""

import multiprocessing
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "watching")]

import judging

A_SECOND, LEAST_WARNED, MOST_FALSE = 100, 0.9, 0.2
BURST_MIN = 60
MARK_F, LOST, SEED = 5.0, 0.1, 7
STEADY_SEEDS = (1, 11, 12, 13)   # kitchens of their own; a handful of twitchy cookers makes most false alarms


def speed() -> None:
    """An hour at 100 readings a second, through a process of its own, from standard input."""
    rng = np.random.default_rng(1)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "burst.csv"
        with path.open("w") as file:
            file.write("epoch,Dome °F\n")
            for at in range(BURST_MIN * 60 * A_SECOND):
                file.write(f"{1.79e9 + at / A_SECOND:.2f},{250 + rng.normal(0, 2):.1f}\n")
        started = time.perf_counter()
        with path.open("rb") as file:
            subprocess.run([sys.executable, "-m", "advisor", "watch", "-", "--target", "250"], stdin=file, check=True,
                           cwd=ROOT, stdout=subprocess.DEVNULL)
        took = time.perf_counter() - started
    count = BURST_MIN * 60 * A_SECOND
    print(f"{count:,} readings of {BURST_MIN} minutes in {took:.1f} s: {count / took:,.0f} a second, at least {A_SECOND}")


def _false(seed: int, cooks: int) -> tuple[list[str], float]:
    found, hours = judging.false_alarms(judging.steady(cooks, seed), MARK_F, LOST, SEED, range(cooks))
    return [f"kitchen {seed}, cook {i}, minute {event.at:.0f}: {event.seen.kind} at {event.seen.amount_f:.0f} °F" for i, event in found], hours


def _warned(name: str, cooks: int) -> judging.Warned:
    make, from_min = judging.kinds(cooks, 2)[name]
    return judging.warned(name, make(), MARK_F, LOST, SEED, from_min)


def quality(cooks: int) -> None:
    with multiprocessing.Pool(2) as pool:
        parts = [pool.apply_async(_false, (seed, cooks)) for seed in STEADY_SEEDS]
        kinds = [pool.apply_async(_warned, (name, cooks)) for name in judging.kinds(cooks, 2)]
        found = [part.get() for part in parts]
        warnings = [kind.get() for kind in kinds]
    hours = sum(part[1] for part in found)
    false = [line for part in found for line in part[0]]
    print(f"steady: {hours:.0f} hours, {len(false)} false alarms, {12 * len(false) / hours:.2f} in 12 hours, at most {MOST_FALSE}")
    print("\n".join(f"  {line}" for line in false[:5]))
    for warning in warnings:
        low, middle = np.percentile(np.maximum(warning.before_min, -99.0), [10, 50])
        print(f"{warning.name}: {len(warning.before_min)} left the band, warned before in {warning.share():.0%}; "
              f"minutes before: {low:.0f} (one in ten less), {middle:.0f} in the middle")
    everything = np.concatenate([warning.before_min for warning in warnings])
    print(f"all: warned before in {(everything > 0).mean():.0%} of {len(everything)}, at least {LEAST_WARNED:.0%}")


if __name__ == "__main__":
    words = [word for word in sys.argv[1:] if not word.startswith("-")]
    speed()
    if "--speed" not in sys.argv:
        quality(int(words[0]) if words else 30)
