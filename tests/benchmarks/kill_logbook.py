"""Kill `drafthand pipe --data` and `drafthand import` at random moments and see whether anything is lost. Never a test.

    python tests/benchmarks/kill_logbook.py [KILLS] [SEED] [FILE]

One kill in ten is during an import. After every kill: all acknowledged turns, readings and steps are there, the file is
sound, and state and replies are those of a conversation nobody killed. Each kill is told as it comes. FILE keeps what came
of every talk and import that was ended; called again with it, the run goes on from there. Exit status 1 if anything was lost.
"""

import json
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import asdict
from itertools import count
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from killing import Killed, Tally
from killing_imports import KilledImport

from advisor.terminal.keptrules import kept_rulebook

EndedWith = Callable[[int, int, Callable[[str], None]], Tally]  # (which one, kills at most, tell)


class Run:
    """All that was killed so far, of each kind, and the file it is kept in."""

    def __init__(self, file: Path | None) -> None:
        self._file, self.tallies, self._began = file, {"talks": Tally(), "imports": Tally()}, time.monotonic()
        for line in file.read_text().splitlines() if file and file.exists() else ():
            kept = json.loads(line)
            self.tallies[kept.pop("kind")].add(Tally(**kept))

    @property
    def broken(self) -> list[str]:
        return [what for tally in self.tallies.values() for what in tally.broken]

    def until(self, kind: str, kills: int, one: EndedWith) -> None:
        """One talk or import after the other, until so many kills are reached."""
        tally = self.tallies[kind]
        while tally.kills < kills:
            ended = one(tally.conversations, kills - tally.kills, self._teller(kind, tally.kills, kills))
            tally.add(ended)
            if self._file:
                with self._file.open("a") as kept:
                    kept.write(json.dumps({"kind": kind, **asdict(ended)}) + "\n")

    def _teller(self, kind: str, before: int, kills: int) -> Callable[[str], None]:
        """Prints a line for each kill after the first `before` ones."""
        numbers = count(before + 1)

        def tell(what: str) -> None:
            print(f"{time.monotonic() - self._began:6.0f} s, {kind}, kill {next(numbers)} of {kills}: {what}; "
                  f"different so far: {len(self.broken)}", flush=True)

        return tell

    def summary(self) -> str:
        talks, imports = self.tallies["talks"], self.tallies["imports"]
        of_talks = (f"{talks.kills} kills in {talks.conversations} conversations of {talks.lines} lines; "
                    f"{talks.kept_unanswered} lines were kept and not yet answered")
        of_imports = f"{imports.kills} kills during {imports.conversations} imports; {imports.kept_unanswered} had kept all"
        verdict = f"lost or otherwise than without a kill: {len(self.broken)}, may be 0"
        return "\n".join((of_talks, of_imports, verdict, *self.broken[:20]))


def main(kills: int, seed: int, file: Path | None) -> int:
    run, rulebook, in_imports = Run(file), kept_rulebook(), kills // 10
    try:
        with tempfile.TemporaryDirectory() as folder:
            run.until("talks", kills - in_imports, lambda *which: Killed(rulebook, Path(folder), seed, *which).run())
            run.until("imports", in_imports, lambda *which: KilledImport(Path(folder), seed, *which).run())
    except KeyboardInterrupt:
        print("stopped from the keyboard; so far:")
    print(run.summary())
    return 1 if run.broken else 0


if __name__ == "__main__":
    said = sys.argv[1:]
    figures = [int(word) for word in said[:2]]
    sys.exit(main(*(figures + [500, 1][len(figures):]), Path(said[2]) if len(said) > 2 else None))
