"""Whether memory stays flat: many conversations in one process, its size after the first thousand and at the end.

    python tests/benchmarks/bench_memory.py [CONVERSATIONS]
"""

import json
import sys
from pathlib import Path

from bench_pipe import conversation

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.rulebook.loader import read_rulebook
from advisor.session import Session
from advisor.terminal.pipe import Pipe

FIRST = 1_000


def resident_mb() -> float:
    """Resident memory of this process in megabytes (Linux)."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096 / 1e6


def main(conversations: int) -> None:
    pipe = Pipe(Session(Conversation(read_rulebook()), None, SetClock()))
    early = 0.0
    for seed in range(conversations):
        for line in conversation(seed):
            pipe.answer(json.dumps(line).encode())
        if (seed + 1) % FIRST == 0:
            early = early or resident_mb()
            print(f"{seed + 1:>6} conversations: {resident_mb():.1f} MB", flush=True)
    print(f"growth after the first {FIRST}: {resident_mb() - early:+.1f} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
