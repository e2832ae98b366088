"""A conversation through `drafthand pipe --data` that is killed at random moments, held against one that is not.

The lines are the caller's, with at_min. A line counts as acknowledged once its whole answer was read; the one in flight
when the process died may be kept or not, and is sent again only when it was not.
"""

import json
import random
import shutil
import sqlite3
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.logbook.connecting import FILE
from advisor.logbook.opening import open_logbook
from advisor.rulebook.loader import Rulebook
from advisor.session import Session
from advisor.terminal.pipe import Pipe

WORDS = ["im {over} over what now", "number two is at {dome}, want 225", "done", "no idea", "why", "what if it hits 400",
         "thick white smoke", "both vents shut", "top half, bottom an inch", "110 °C outside it is 5 C", "thanks",
         "cant shut the top", "opened the lid a minute ago", "what now", "meat at 150, want 203"]


def conversation(dice: random.Random) -> Iterator[dict]:
    """The lines of a random conversation, the first a reset; no two at one minute."""
    yield {"reset": True}
    at_min, dome = 0.0, dice.randrange(200, 450)
    yield {"reading": {"target_f": dice.choice([225, 250, 275]), "dome_f": dome}, "at_min": at_min}
    for _ in range(dice.randrange(4, 14)):
        at_min, dome = round(at_min + dice.choice([0.3, 1, 4.7, 12]), 1), dome + dice.randrange(-25, 20)
        kind = dice.choice(["reading", "reading", "say", "say", "done", "cooker"])
        line = {"reading": {"dome_f": dome, "meat_f": 40 + at_min}} if kind == "reading" else {
            "say": dice.choice(WORDS).format(dome=dome, over=dice.randrange(10, 200))} if kind == "say" else {
            "done": [1]} if kind == "done" else {"cooker": dice.choice(["left", "right"])}
        yield line | {"at_min": at_min}


class Tally:
    """What came of it. broken: every difference found, in words."""

    def __init__(self) -> None:
        self.kills = self.lines = self.kept_unanswered = self.conversations = 0
        self.broken: list[str] = []


class Killed:
    """A process of the pipe, the same conversation unkilled in this one, and the logbook between them."""

    def __init__(self, rulebook: Rulebook, parent: Path, seed: int) -> None:
        self.rulebook, self.parent, self.dice, self.tally = rulebook, parent, random.Random(seed), Tally()
        self.folder = parent / "0"
        self.process: subprocess.Popen | None = None

    def run(self, kills: int) -> Tally:
        """Random conversations until the process has died so often."""
        while self.tally.kills < kills:
            self.tally.conversations += 1
            self.folder = self.parent / f"{self.tally.conversations}"  # what finished cooks teach is no part of a talk
            self._talk(list(conversation(self.dice)), kills)
            self._stop()
        return self.tally

    def _talk(self, lines: list[dict], kills: int) -> None:
        reference = Session(Conversation(self.rulebook, forecasts=True), None, SetClock())
        expected = Pipe(reference)
        told: list[dict] = []
        for line in lines:
            answer = json.loads(expected.answer(json.dumps(line).encode()))
            given = self._ask(line, dies=self.tally.kills < kills and self.dice.random() < 0.5, told=told)
            self.tally.lines += 1
            if given is not None and given != answer and "error" not in answer:
                self._broken(f"{line} was answered otherwise than without a kill")
            if "error" not in answer:
                told.append(line)
            if given is None or self.process is None:
                self._check(reference, told)

    def _ask(self, line: dict, dies: bool, told: list[dict]) -> dict | None:
        """The answer to a line; None where the process died after keeping it and before answering."""
        before = self._turns()
        while True:
            process = self._started()
            killer = threading.Timer(self.dice.uniform(0, self.dice.choice([0.03, 0.1, 0.8])), process.kill)
            if dies:
                killer.start()
            try:
                process.stdin.write(json.dumps(line).encode() + b"\n")
                process.stdin.flush()
            except BrokenPipeError:
                pass
            answer = process.stdout.readline()
            if dies:
                killer.join()
                process.wait()
                self._died()
                dies = False
            if answer.endswith(b"\n"):
                return json.loads(answer)
            if self._turns() != before:
                self.tally.kept_unanswered += 1
                return None

    def _started(self) -> subprocess.Popen:
        if self.process is None:
            self.process = subprocess.Popen([sys.executable, "-m", "advisor", "pipe", "--data", str(self.folder)],
                                            stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        return self.process

    def _stop(self) -> None:
        if self.process is not None:
            self.process.kill()
            self.process.wait()
            self._gone()

    def _died(self) -> None:
        self.tally.kills += 1
        self._gone()

    def _gone(self) -> None:
        self.process.stdout.close()
        with suppress(BrokenPipeError):  # what it never read is still in the buffer
            self.process.stdin.close()
        self.process = None

    def _turns(self) -> int:
        """How many turns the logbook holds."""
        return self._look("SELECT count(*) FROM turn")[0][0] if (self.folder / FILE).exists() else 0

    def _look(self, question: str) -> list[tuple]:
        """What the file as it lies there answers, in a copy: the next process must find it as the dead one left it."""
        copy = self.folder.parent / "copy"
        shutil.rmtree(copy, ignore_errors=True)
        copy.mkdir()
        for name in (FILE, f"{FILE}-wal"):
            if (self.folder / name).exists():
                shutil.copy(self.folder / name, copy / name)
        looking = sqlite3.connect(copy / FILE)
        try:
            return looking.execute(question).fetchall()
        except sqlite3.OperationalError as error:  # it died before the tables were made
            return [(0,)] if "no such table" in str(error) else [(str(error),)]
        finally:
            looking.close()

    def _check(self, reference: Session, told: list[dict]) -> None:
        """Every acknowledged line is there, and the talk stands where the unkilled one stands."""
        if (sound := self._look("PRAGMA integrity_check")) != [("ok",)]:
            self._broken(f"integrity_check says {sound}")
        book = open_logbook(self.folder.parent / "copy")
        with book.reading() as page:
            talk = page.open_talk()
            if talk is None:
                return self._broken("no talk is kept")
            turns = page.turns(talk.id)
            cooks = [cook for cook in page.cooks() if cook.talk_id == talk.id]
            domes = {(row.at_ms - talk.epoch_ms) / 60_000: row.value_f for cook in cooks
                     for row in page.readings(cook.id, "dome")}
            deeds = sum(len(page.deeds(cook.id)) for cook in cooks)
        book.close()
        kept = [turn.content for turn in turns]
        if kept != told[1:]:
            self._broken(f"{len(told) - 1} lines were told and {len(kept)} turns are kept, or others")
        if talk.state["conversation"] != json.loads(json.dumps(reference.conversation.state())):
            self._broken("the kept state is another than that of a talk without a kill")
        for line in told:
            reading = line.get("reading", {}).get("dome_f")
            if reading is not None and domes.get(line["at_min"]) != reading:
                self._broken(f"{line} is not among the readings")
        if deeds != sum(len(cook.deeds) for cook in reference.conversation.stand.all):
            self._broken("the steps done are others")

    def _broken(self, what: str) -> None:
        self.tally.broken.append(f"kill {self.tally.kills}: {what}")


ROWS, EVERY_MS, LONG_AGO_MS = 50_000, 2_000, 1_700_000_000_000


def import_kills(parent: Path, seed: int, kills: int) -> Tally:
    """`drafthand import` killed at random moments and called again until it ends: no reading is missing or there twice."""
    dice, tally, folder = random.Random(seed), Tally(), parent / "imports"
    file, wanted = parent / "logger.csv", [(LONG_AGO_MS + n * EVERY_MS, 225.0 + n % 50) for n in range(ROWS)]
    file.write_text("seconds,dome\n" + "".join(f"{at_ms // 1000},{value:g}\n" for at_ms, value in wanted))
    while tally.kills < kills:
        tally.conversations += 1
        cooker = f"cooker {tally.conversations}"
        words = [sys.executable, "-m", "advisor", "import", str(file), "--data", str(folder), "--units", "F",
                 "--columns", "time=seconds,dome=dome", "--cooker", cooker]
        while not _imported(words, dice, tally, dies=tally.kills < kills):
            kept = _imported_readings(folder, cooker, tally)
            if kept != wanted[:len(kept)]:
                tally.broken.append(f"kill {tally.kills}: of an import that was killed other readings are kept than the first")
            tally.kept_unanswered += len(kept) == ROWS
        if _imported_readings(folder, cooker, tally) != wanted:
            tally.broken.append(f"kill {tally.kills}: the import is done and not all readings are there, or more")
    return tally


def _imported(words: list[str], dice: random.Random, tally: Tally, dies: bool) -> bool:
    """Whether the import came to its end."""
    process = subprocess.Popen(words, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    killer = threading.Timer(dice.uniform(0.2, 3), process.kill)
    if dies:
        killer.start()
    status = process.wait()
    killer.cancel()
    tally.kills += status < 0
    if status > 0:
        raise RuntimeError("the import failed")
    return status == 0


def _imported_readings(folder: Path, cooker: str, tally: Tally) -> list[tuple[int, float]]:
    if not (folder / FILE).exists():
        return []
    book = open_logbook(folder)
    cooks = book.cooks(cooker)
    if len(cooks) > 1:
        tally.broken.append(f"kill {tally.kills}: one file has become {len(cooks)} cooks")
    kept = [(row.at_ms, row.value_f) for cook in cooks for row in book.readings(cook.id)]
    book.close()
    with sqlite3.connect(folder / FILE) as looking:
        if (sound := looking.execute("PRAGMA integrity_check").fetchall()) != [("ok",)]:
            tally.broken.append(f"kill {tally.kills}: integrity_check says {sound}")
    looking.close()
    return kept
