"""A page of a demo conversation to turns and pins. Knows the notation (transcripts_demo/README.md), not what holds."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from advisor.errors import TranscriptError
from advisor.facts import Value
from advisor.suggestions import did_you_mean

FENCE, END = "```watch", "```"
VERBS = ("cook", "gauge", "did", "turn")
KINDS = ("heard", "also", "thinks", "rule", "step", "danger", "warning", "note", "asks", "look", "words", "refused")
TURN = re.compile(r"(\d\d):(\d\d)  (\w+)(?: +(\S.*))?")
PIN = re.compile(r"  +(\w+)(?: +(\S.*))?")
PAIR = re.compile(r'(\w+) +("[^"]*"|[^,]+)(?:, *|$)')
MARGIN, LABEL = 7, 9        # columns of the time, and of the word behind it
HALF_A_DAY = 12 * 60


@dataclass(frozen=True, slots=True)
class Pin:
    """One thing a reply must hold: what kind of thing, and what it is. line: where it stands, 0 for a new one."""

    kind: str
    text: str
    line: int = 0

    def __str__(self) -> str:
        number, text = self.text.split(" ", 1) if self.kind == "step" and " " in self.text else ("", self.text)
        return f"{'':{MARGIN}}{f'{self.kind} {number}'.strip():<{LABEL}}{text}"


@dataclass(frozen=True, slots=True)
class Turn:
    """One message to the advisor. minute: since the first turn; day_minute: since midnight; pins follow its line."""

    line: int
    minute: float
    day_minute: int
    verb: str
    words: str
    pins: tuple[Pin, ...]


@dataclass(frozen=True, slots=True)
class Page:
    path: str
    lines: tuple[str, ...]
    turns: tuple[Turn, ...]


def read_page(path: Path) -> Page:
    """One page. Raises TranscriptError with file and line."""
    try:
        return parse(path.read_text(encoding="utf-8"), str(path))
    except UnicodeDecodeError:
        raise TranscriptError(f"{path}: this is no text in UTF-8", "", "save it as plain text") from None
    except OSError as error:
        raise TranscriptError(f"{path} cannot be read ({error.strerror})", "", "name a page that is there") from None


def parse(text: str, path: str) -> Page:
    """The page with this text. Raises TranscriptError with file and line."""
    reader = _Reader(path)
    lines = text.split("\n")
    for number, line in enumerate(lines, 1):
        reader.take(number, line)
    return Page(path, tuple(lines), reader.whole(len(lines)))


class _Reader:
    """The state of reading one page line by line."""

    def __init__(self, path: str) -> None:
        self._path, self._inside, self._pins_may_follow = path, False, False
        self._turns: list[Turn] = []

    def take(self, number: int, line: str) -> None:
        self._number = number
        if not self._inside:
            self._inside = line.strip() == FENCE
        elif line.strip() == END:
            self._inside = self._pins_may_follow = False
        elif not line.strip():
            self._pins_may_follow = False
        elif found := TURN.fullmatch(line.rstrip()):
            self._turn(*found.groups(default=""))
        elif found := PIN.fullmatch(line.rstrip()):
            self._pin(*found.groups(default=""))
        else:
            raise self._off(f"{line.strip()[:40]!r} is neither a turn nor a pin",
                            "a turn begins with the time (16:05  cook  words), a pin with blanks")

    def _turn(self, hours: str, minutes: str, verb: str, words: str) -> None:
        if verb not in VERBS:
            raise self._off(f"nobody called {verb!r} takes a turn", did_you_mean(verb, VERBS))
        day_minute = self._day_minute(int(hours), int(minutes))
        passed = (day_minute - self._turns[-1].day_minute) % 1440 if self._turns else 0
        if passed > HALF_A_DAY:
            raise self._off(f"{hours}:{minutes} lies before the turn above", "a page's clock never goes back")
        minute = self._turns[-1].minute + passed if self._turns else 0.0
        self._turns.append(Turn(self._number, minute, day_minute, verb, words, ()))
        self._pins_may_follow = True

    def _day_minute(self, hours: int, minutes: int) -> int:
        if hours > 23 or minutes > 59:
            raise self._off(f"{hours:02}:{minutes:02} is no time of day", "write 00:00 to 23:59")
        return hours * 60 + minutes

    def _pin(self, kind: str, text: str) -> None:
        if kind not in KINDS:
            raise self._off(f"nothing called {kind!r} can be pinned", did_you_mean(kind, KINDS))
        if not text:
            raise self._off(f"{kind} pins nothing", "write what must come, or take the line out")
        if not self._pins_may_follow:
            raise self._off(f"this {kind} hangs on no turn", "pins follow the line of their turn at once")
        turn = self._turns[-1]
        pin = Pin(kind, " ".join(text.split()) if kind != "words" else text, self._number)
        self._turns[-1] = Turn(turn.line, turn.minute, turn.day_minute, turn.verb, turn.words, (*turn.pins, pin))

    def whole(self, last: int) -> tuple[Turn, ...]:
        self._number = last
        if self._inside:
            raise self._off("the last session is never closed", f"end it with {END}")
        if not self._turns:
            raise self._off("there is no turn on this page", f"begin a session with {FENCE}")
        return tuple(self._turns)

    def _off(self, seen: str, remedy: str) -> TranscriptError:
        return TranscriptError(f"{self._path}:{self._number}: {seen}", "", remedy)


def pairs(text: str) -> dict[str, Value] | None:
    """`dome_f 310, flames true` as facts; None when it is not written so."""
    found = list(PAIR.finditer(text))
    if "".join(match.group() for match in found) != text:
        return None
    return {match[1]: _value(match[2].strip()) for match in found}


def written(values: Iterable[tuple[str, Value]]) -> str:
    """Facts as a page writes them."""
    return ", ".join(f"{name} {_word(value)}" for name, value in values)


def _value(word: str) -> Value:
    if word in ("true", "false"):
        return word == "true"
    try:
        return float(word)
    except ValueError:
        return word.strip('"')


def _word(value: Value) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{value}"' if "," in value else value
    return f"{value:g}"
