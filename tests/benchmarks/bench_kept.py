"""What keeping a turn costs beside the turn itself, and how long a logbook takes to open. A command, never a test.

    python tests/benchmarks/bench_kept.py [CONVERSATIONS]
"""

import os
import random
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path
from statistics import median, quantiles

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from killing import conversation

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.errors import DrafthandError
from advisor.logbook.opening import open_logbook
from advisor.session import Session
from advisor.terminal.keptrules import kept_rulebook
from advisor.terminal.lines import LINES, Line

MOST_MORE_MS, MOST_OPEN_S = 5, 0.3
OPENS = ("import sys, time; from advisor.logbook.opening import open_logbook; open_logbook(sys.argv[1]); "
         "print(time.process_time())")
Spent = tuple[float, float]  # milliseconds of a turn: of this processor, on the wall


def main(conversations: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        turns = compared(folder, conversations)
        opening = [opened(folder) for _ in range(5)]
        size = sum(file.stat().st_size for file in Path(folder).iterdir())
    for name, which in (("unkept", 0), ("kept  ", 1)):
        print(f"{name} turn: median {median(turn[which][0] for turn in turns):.1f} ms of the processor, "
              f"{median(turn[which][1] for turn in turns):.1f} ms on the wall")
    report("SQLite", turns)
    print(f"process with the logbook open: median {median(opening):.2f} s of the processor, at most {MOST_OPEN_S}")
    print(f"{size / len(turns) / 1000:.0f} kB a turn")
    if server := os.environ.get("DRAFTHAND_TEST_POSTGRES"):
        report("PostgreSQL", compared(server, conversations))


def report(name: str, turns: list[tuple[Spent, Spent]]) -> None:
    """The wall counts the disk, and whoever else uses machine and disk."""
    more = [(kept[0] - unkept[0], kept[1] - unkept[1]) for unkept, kept in turns]
    print(f"more for keeping, {name}: median {median(cpu for cpu, _ in more):.1f} ms of the processor, "
          f"{median(wall for _, wall in more):.1f} ms on the wall, at most {MOST_MORE_MS}; "
          f"p99 {quantiles([wall for _, wall in more], n=100)[98]:.0f} ms on the wall")


def compared(place: str, conversations: int) -> list[tuple[Spent, Spent]]:
    """Every turn of some random conversations, unkept and kept; no forecasts, which cost more than all the rest."""
    rulebook, book = kept_rulebook(), open_logbook(place)
    sessions = [Session(Conversation(rulebook), logbook, SetClock(29e6)) for logbook in (None, book)]
    found = []
    for seed in range(conversations):
        for data in conversation(random.Random(seed)):
            line = LINES[next(key for key in LINES if key in data)].model_validate(data)
            with suppress(DrafthandError):
                found.append((spent(line, sessions[0]), spent(line, sessions[1])))
    book.close()
    return found


def spent(line: Line, session: Session) -> Spent:
    cpu, wall = time.process_time(), time.perf_counter()
    line.put(session)
    return (time.process_time() - cpu) * 1000, (time.perf_counter() - wall) * 1000


def opened(folder: str) -> float:
    done = subprocess.run([sys.executable, "-c", OPENS, folder], capture_output=True, text=True, check=True)
    return float(done.stdout)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40)
