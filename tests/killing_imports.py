"""`drafthand import` killed at random moments and called again until it ends: no reading is missing or there twice."""

import random
import shutil
import threading
from collections.abc import Callable
from pathlib import Path

from killing import FILE, Tally, copied, look
from nursery import Cold, Forked

from advisor.logbook.opening import open_logbook

ROWS, EVERY_MS, LONG_AGO_MS = 50_000, 2_000, 1_700_000_000_000
WANTED = [(LONG_AGO_MS + n * EVERY_MS, 225.0 + n % 50) for n in range(ROWS)]
COLD = 1 / 8
WITHIN_S = {Cold: 3.0, Forked: 1.2}


def imports(parent: Path, seed: int, kills: int, tell: Callable[[str], None] = lambda line: None) -> Tally:
    """Imports of one file, each into a logbook of its own, until processes have died so often."""
    tally = Tally()
    while tally.kills < kills:
        tally.add(KilledImport(parent, seed, tally.conversations, kills - tally.kills, tell).run())
    return tally


class KilledImport:
    """One import, the n-th of a seed. most: kills; tell: is given a line about each."""

    def __init__(self, parent: Path, seed: int, n: int, most: int, tell: Callable[[str], None] = lambda line: None) -> None:
        self.dice, self.tally, self.most, self.tell = random.Random(f"{seed} import {n}"), Tally(conversations=1), most, tell
        self.folder, self.file = parent / f"import {seed}-{n}", parent / "logger.csv"
        if not self.file.exists():
            self.file.write_text("seconds,dome\n" + "".join(f"{at_ms // 1000},{value:g}\n" for at_ms, value in WANTED))

    def run(self) -> Tally:
        """Until the import has come to its end."""
        while not self._imported():
            kept = self._kept()
            if kept != WANTED[:len(kept)]:
                self._broken("other readings are kept than the first")
            self.tally.kept_unanswered += len(kept) == ROWS
            self.tell(f"{self.folder.name}: {len(kept):,} of {ROWS:,} readings kept")
        if self._kept() != WANTED:
            self._broken("the import is done and not all readings are there, or more")
        shutil.rmtree(self.folder, ignore_errors=True)
        return self.tally

    def _imported(self) -> bool:
        kind = Cold if self.dice.random() < COLD else Forked
        process = kind(["import", str(self.file), "--data", str(self.folder), "--units", "F", "--columns",
                        "time=seconds,dome=dome", "--cooker", "the one"])
        killer = threading.Timer(self.dice.uniform(0, WITHIN_S[kind]), process.kill)
        if self.tally.kills < self.most:
            killer.start()
        process.stdin.close()
        process.stdout.read()
        status = process.wait()
        killer.cancel()
        process.stdout.close()
        self.tally.kills += status < 0
        if status > 0:
            raise RuntimeError("the import failed")
        return status == 0

    def _kept(self) -> list[tuple[int, float]]:
        """The readings that the file holds as the dead process left it."""
        with copied(self.folder) as copy:
            if not (copy / FILE).exists():
                return []
            if (sound := look(copy, "PRAGMA integrity_check")) != [("ok",)]:
                self._broken(f"integrity_check says {sound}")
            book = open_logbook(copy)
            cooks = book.cooks()
            book.close()
            if len(cooks) > 1:
                self._broken(f"one file has become {len(cooks)} cooks")
            return look(copy, "SELECT at_ms, value_f FROM reading ORDER BY at_ms")

    def _broken(self, what: str) -> None:
        self.tally.broken.append(f"{self.folder.name}, kill {self.tally.kills}: {what}")
