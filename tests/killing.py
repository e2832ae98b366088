"""A conversation through `drafthand pipe --data` that is killed at random moments, held against one that is not.

The lines are the caller's, with at_min. A line counts as acknowledged once its whole answer was read; the one in flight
when the process died may be kept or not, and is sent again only when it was not.
"""

import json
import os
import random
import shutil
import sqlite3
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass, field
from pathlib import Path

from nursery import Cold, Forked

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.logbook.connecting import FILE
from advisor.logbook.opening import Logbook, open_logbook
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


COLD = 1 / 8                    # of the processes start from nothing, the others are forked
COLD_S, FORKED_S = (0.4, 1.5), (0.02, 0.06, 0.25)  # within which they die: while starting, in the middle of a turn, after it
AIMED, AIMED_S = 1 / 4, 0.002   # of the kills fall within that time of the first byte written: blind ones seldom meet it
NO_WRITE_S = 1.5                # some lines are refused, and nothing is written
LOOK_S = 0.0002
MEMORY = Path("/dev/shm")       # a copy that is only looked at need not reach a disk


@dataclass
class Tally:
    """What came of it. broken: every difference found, in words."""

    kills: int = 0
    lines: int = 0
    kept_unanswered: int = 0
    conversations: int = 0
    broken: list[str] = field(default_factory=list)

    def add(self, other: "Tally") -> None:
        for name, value in asdict(other).items():
            setattr(self, name, getattr(self, name) + value)


def talks(rulebook: Rulebook, parent: Path, seed: int, kills: int, tell: Callable[[str], None] = lambda line: None) -> Tally:
    """Random conversations until processes have died so often."""
    tally = Tally()
    while tally.kills < kills:
        tally.add(Killed(rulebook, parent, seed, tally.conversations, kills - tally.kills, tell).run())
    return tally


class Killed:
    """One conversation, the n-th of a seed: a process of the pipe, the same unkilled in this one, the logbook between them.

    most: kills; tell: is given a line about each.
    """

    def __init__(self, rulebook: Rulebook, parent: Path, seed: int, n: int, most: int,
                 tell: Callable[[str], None] = lambda line: None) -> None:
        self.dice, self.tally, self.most, self.tell = random.Random(f"{seed} {n}"), Tally(conversations=1), most, tell
        self.folder = parent / f"{seed}-{n}"  # what finished cooks teach is no part of a talk: a logbook for each
        self.reference = Session(Conversation(rulebook, forecasts=True), None, SetClock())
        self.told: list[dict] = []
        self.process: Cold | Forked | None = None

    def run(self) -> Tally:
        """To the end of the conversation."""
        expected = Pipe(self.reference)
        for line in conversation(self.dice):
            answer = json.loads(expected.answer(json.dumps(line).encode()))
            dies = self.tally.kills < self.most and self.dice.random() < 0.5
            given = self._ask(line, dies)
            self.tally.lines += 1
            if given is not None and given != answer and "error" not in answer:
                self._broken(f"{line} was answered otherwise than without a kill")
            if "error" not in answer:
                self.told.append(line)
            if dies:
                self._check()
        if self.process is not None:
            self.process.kill()
            self._gone()
        shutil.rmtree(self.folder, ignore_errors=True)
        return self.tally

    def _ask(self, line: dict, dies: bool) -> dict | None:
        """The answer to a line; None where the process died after keeping it and before answering."""
        before = self._turns() if dies else 0
        answer = self._killed_over(line) if dies else self._answer(line)
        if answer.endswith(b"\n"):
            return json.loads(answer)
        if self._turns() == before:
            return json.loads(self._answer(line))
        self.tally.kept_unanswered += 1
        return None

    def _killed_over(self, line: dict) -> bytes:
        """What came back before the process died."""
        process = self._started()
        aimed = self.dice.random() < AIMED
        within_s = AIMED_S if aimed else self.dice.choice(COLD_S if isinstance(process, Cold) else FORKED_S)
        after_s = self.dice.uniform(0, within_s)
        sign = written(self.folder) if aimed else None
        killer = threading.Thread(target=self._kill, args=(process, after_s, sign))
        killer.start()
        answer = self._answer(line)
        killer.join()
        self.tally.kills += 1
        self._gone()
        came = "answered" if answer.endswith(b"\n") else "not answered"
        self.tell(f"talk {self.folder.name}, line {len(self.told) + 1}, {after_s * 1000:.0f} ms after it was "
                  f"{'first written' if aimed else 'sent'}: {came}")
        return answer

    def _kill(self, process: Cold | Forked, after_s: float, sign: tuple[int, int] | None) -> None:
        """sign: what `written` gave; the time runs from where it gives something else."""
        until = time.monotonic() + NO_WRITE_S
        while sign is not None and written(self.folder) == sign and time.monotonic() < until:
            time.sleep(LOOK_S)
        time.sleep(after_s)
        process.kill()

    def _answer(self, line: dict) -> bytes:
        process = self._started()
        with suppress(BrokenPipeError):
            process.stdin.write(json.dumps(line).encode() + b"\n")
            process.stdin.flush()
        return process.stdout.readline()

    def _started(self) -> Cold | Forked:
        if self.process is None:
            kind = Cold if self.dice.random() < COLD else Forked
            self.process = kind(["pipe", "--data", str(self.folder)])
        return self.process

    def _gone(self) -> None:
        self.process.wait()
        self.process.stdout.close()
        with suppress(BrokenPipeError):  # what it never read is still in the buffer
            self.process.stdin.close()
        self.process = None

    def _turns(self) -> int:
        """How many turns the logbook holds."""
        with copied(self.folder) as copy:
            return look(copy, "SELECT count(*) FROM turn")[0][0]

    def _check(self) -> None:
        """Every acknowledged line is there, and the talk stands where the unkilled one stands."""
        with copied(self.folder) as copy:
            if (sound := look(copy, "PRAGMA integrity_check")) != [("ok",)]:
                self._broken(f"integrity_check says {sound}")
            book = open_logbook(copy)
            self._check_pages(book)
            book.close()

    def _check_pages(self, book: Logbook) -> None:
        with book.reading() as page:
            talk = page.open_talk()
            if talk is None:
                return self._broken("no talk is kept")
            turns = page.turns(talk.id)
            cooks = [cook for cook in page.cooks() if cook.talk_id == talk.id]
            domes = {(row.at_ms - talk.epoch_ms) / 60_000: row.value_f for cook in cooks
                     for row in page.readings(cook.id, "dome")}
            deeds = sum(len(page.deeds(cook.id)) for cook in cooks)
        kept = [turn.content for turn in turns]
        if kept != self.told[1:]:
            self._broken(f"{len(self.told) - 1} lines were told and {len(kept)} turns are kept, or others")
        for where in parted(talk.state["conversation"], json.loads(json.dumps(self.reference.conversation.state()))):
            self._broken(f"the kept state is another than that of a talk without a kill: {where}")
            break
        for line in self.told:
            reading = line.get("reading", {}).get("dome_f")
            if reading is not None and domes.get(line["at_min"]) != reading:
                self._broken(f"{line} is not among the readings")
        if deeds != sum(len(cook.deeds) for cook in self.reference.conversation.stand.all):
            self._broken("the steps done are others")

    def _broken(self, what: str) -> None:
        self.tally.broken.append(f"talk {self.folder.name}, kill {self.tally.kills}: {what}")


def written(folder: Path) -> tuple[int, int]:
    """Something that is another after every write to the logbook."""
    try:
        found = os.stat(folder / f"{FILE}-wal")
    except FileNotFoundError:
        return 0, 0
    return found.st_size, found.st_mtime_ns


def parted(one: object, other: object, path: str = "") -> Iterator[str]:
    """Where two pieces of JSON data are not the same."""
    if isinstance(one, dict) and isinstance(other, dict):
        for key in one.keys() | other.keys():
            yield from parted(one.get(key), other.get(key), f"{path}.{key}")
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for n, pair in enumerate(zip(one, other, strict=True)):
            yield from parted(*pair, f"{path}[{n}]")
    elif one != other:
        yield f"{path}: {str(one)[:80]} and {str(other)[:80]}"


@contextmanager
def copied(folder: Path) -> Iterator[Path]:
    """A copy of a logbook as it lies there: looking at the thing itself would mend what the next process must find."""
    with tempfile.TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None) as copy:
        for name in (FILE, f"{FILE}-wal"):
            if (folder / name).exists():
                shutil.copy(folder / name, Path(copy) / name)
        yield Path(copy)


def look(copy: Path, question: str) -> list[tuple]:
    """What the file answers; a zero where it died before the tables were made."""
    looking = sqlite3.connect(copy / FILE)
    try:
        return looking.execute(question).fetchall()
    except sqlite3.OperationalError as error:
        return [(0,)] if "no such table" in str(error) else [(str(error),)]
    finally:
        looking.close()
