"""Kill `drafthand pipe --data` at random moments and see whether anything acknowledged is lost. A command, never a test.

    python tests/benchmarks/kill_logbook.py [KILLS] [START]

A conversation is checked after every kill: all acknowledged turns, readings and steps are there, the file is sound, and
state and replies are those of a conversation nobody killed. Exit status 1 if anything is not.
"""

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from killing import Killed, import_kills

from advisor.terminal.keptrules import kept_rulebook


def main(kills: int, seed: int) -> int:
    with tempfile.TemporaryDirectory() as folder:
        tally = Killed(kept_rulebook(), Path(folder), seed).run(kills)
        imports = import_kills(Path(folder), seed, max(1, kills // 10))
    print(f"{tally.kills} kills in {tally.conversations} conversations of {tally.lines} lines; "
          f"{tally.kept_unanswered} lines were kept and not yet answered")
    print(f"{imports.kills} kills during imports; {imports.kept_unanswered} had kept all")
    print(f"lost or otherwise than without a kill: {len(tally.broken) + len(imports.broken)}, may be 0")
    for what in (tally.broken + imports.broken)[:20]:
        print(f"  {what}")
    return 1 if tally.broken or imports.broken else 0


if __name__ == "__main__":
    figures = [int(word) for word in sys.argv[1:]]
    sys.exit(main(*(figures + [500, 1][len(figures):])))
