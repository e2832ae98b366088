"""How long `drafthand import` takes for a million readings, the first time and again. A command, never a test.

    python tests/benchmarks/bench_import.py [READINGS]

With DRAFTHAND_TEST_POSTGRES (an address of an empty database) it is measured there too.
"""

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage

ROOT = Path(__file__).resolve().parents[2]
MOST_S = 20
START_S = 1_793_500_000


def write(path: Path, readings: int) -> None:
    """Two probes a second."""
    with path.open("w") as file:
        file.write("Time,Pit °F,Meat °F\n")
        for at in range(readings // 2):
            file.write(f"{START_S + at},{250 + at % 7}.{at % 10},{40 + at // 6000}.{at % 10}\n")


def timed(path: Path, data: str) -> tuple[float, float]:
    """(seconds on the wall, seconds of the processor)."""
    before, began = getrusage(RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run([sys.executable, "-m", "advisor", "import", str(path), "--data", data, "--cooker", "bench"], check=True,
                   cwd=ROOT, capture_output=True)
    after = getrusage(RUSAGE_CHILDREN)
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return time.perf_counter() - began, used


def main(readings: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "cook.csv"
        write(path, readings)
        places = {"SQLite": str(Path(folder) / "book")}
        if address := os.environ.get("DRAFTHAND_TEST_POSTGRES"):
            places["PostgreSQL"] = address
        for name, place in places.items():
            for run in ("first", "again"):
                wall, used = timed(path, place)
                print(f"{name}, {run}: {readings:,} readings in {wall:.1f} s (processor {used:.1f} s), at most {MOST_S}", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000)
