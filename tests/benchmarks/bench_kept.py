"""What keeping a turn costs beside the turn itself, and how long a logbook takes to open. A command, never a test.

    python tests/benchmarks/bench_kept.py [CONVERSATIONS]
"""

import os
import random
import subprocess
import sys
import tempfile
import time
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
from advisor.terminal.lines import LINES

MOST_MORE_MS, MOST_OPEN_S = 5, 0.3
OPENS = ("import sys, time; start = time.perf_counter(); from advisor.logbook.opening import open_logbook; "
         "open_logbook(sys.argv[1]); print(time.perf_counter() - start)")


def main(conversations: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        plain, kept = taken(None, conversations), taken(folder, conversations)
        opening = [opened(folder) for _ in range(5)]
        size = sum(file.stat().st_size for file in Path(folder).iterdir())
    for name, milliseconds in (("unkept", plain), ("kept  ", kept)):
        print(f"{name} turn: median {median(milliseconds):.1f} ms, p99 {quantiles(milliseconds, n=100)[98]:.1f} ms")
    more = [with_book - without for with_book, without in zip(kept, plain, strict=True)]
    print(f"more for keeping: median {median(more):.1f} ms, at most {MOST_MORE_MS}")
    print(f"opening, sqlalchemy and all: median {median(opening):.2f} s, at most {MOST_OPEN_S}")
    print(f"{size / len(kept) / 1000:.0f} kB a turn")
    if server := os.environ.get("DRAFTHAND_TEST_POSTGRES"):
        more = [with_book - without for with_book, without in zip(taken(server, conversations), plain, strict=True)]
        print(f"more for keeping, PostgreSQL: median {median(more):.1f} ms, at most {MOST_MORE_MS}")


def taken(place: str | None, conversations: int) -> list[float]:
    """Milliseconds of every turn of some random conversations; no forecasts, which cost more than all the rest."""
    session = Session(Conversation(kept_rulebook()), open_logbook(place) if place else None, SetClock(29e6))
    found = []
    for seed in range(conversations):
        for data in conversation(random.Random(seed)):
            kind = next(key for key in LINES if key in data)
            line = LINES[kind].model_validate(data)
            start = time.perf_counter()
            try:
                line.put(session)
            except DrafthandError:
                continue
            found.append((time.perf_counter() - start) * 1000)
    return found


def opened(folder: str) -> float:
    done = subprocess.run([sys.executable, "-c", OPENS, folder], capture_output=True, text=True, check=True)
    return float(done.stdout)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40)
