"""How long a report of fourteen hours with 50,000 readings takes: `python tests/benchmarks/bench_report.py`."""

import sys
import tempfile
import time
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parents[1] / "report")]

from cook_stories import MORNING, long_cook

from advisor.logbook.opening import open_logbook
from advisor.terminal.commandline import run


def keep(folder: str, readings: int) -> None:
    """The long invented cook as a logger and a cook would have kept it."""
    story, logbook = long_cook(readings), open_logbook(folder)

    def ms(minute: float) -> int:
        return round(MORNING.timestamp() * 1000 + minute * 60_000)

    cook = logbook.begin_cook(story.cooker, ms(0), story.target_f)
    for probe, points in (("dome", story.dome), ("meat", story.meat)):
        logbook.add_readings(cook, [(ms(minute), probe, value) for minute, value in points], "imported")
    logbook.add_moves(cook, [(ms(move.at_min), move.vent, move.opening, move.was) for move in story.moves])
    logbook.add_lids(cook, [ms(lid.at_min) for lid in story.lids])
    logbook.end_cook(cook, ms(story.length_min))
    logbook.close()


def main(readings: int = 50_000) -> None:
    with tempfile.TemporaryDirectory() as folder:
        keep(folder, readings)
        for words in ([], ["--html", f"{folder}/cook.html"], ["--png", f"{folder}/cook.png"]):
            wall, cpu = time.perf_counter(), time.process_time()
            run(["report", "--data", folder, *words])
            print(f"{' '.join(words[:1]) or 'lines'}: {time.perf_counter() - wall:.2f} s, "
                  f"{time.process_time() - cpu:.2f} s of it computing", file=sys.stderr)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
