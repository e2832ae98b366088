"""Text to the width of a terminal: words stay whole, steps hang, every line of a danger is marked. No colour here."""

import os
import re
import shutil
import sys
import textwrap
from collections.abc import Iterator, Mapping
from typing import Literal

from advisor.terminal.door import is_terminal

Kind = Literal["danger", "care", "question", "step", "plain"]
Openings = Mapping[Kind, str]  # the words with which lines of a kind begin

NARROWEST = 20
DANGER_MARK = "!! "
STEP = re.compile(r"\d+\. ")
GAP = re.compile(r"(?<=\S) {2,}(?=\S)")  # between the columns of a table
NARROW_HANG = 4


def openings(phrases: Mapping[str, str]) -> Openings:
    """How the lines of a reply are told apart, from the set phrases of the rule base."""
    return {"danger": phrases["danger"], "care": phrases["take_care"], "question": phrases["ask"]}


def columns() -> int | None:
    """The width to write to; None where no terminal and no COLUMNS asks for one."""
    if is_terminal(sys.stdout) or os.environ.get("COLUMNS", "").isdigit():
        return max(NARROWEST, shutil.get_terminal_size().columns)
    return None


def laid_out(text: str, width: int | None, known: Openings) -> str:
    """`text` broken at blanks to `width`; as it is when None."""
    return "\n".join(line for _, line in lines(text, width, known))


def lines(text: str, width: int | None, known: Openings) -> Iterator[tuple[Kind, str]]:
    """The lines of `text`, each with its kind; one that was too wide is several lines in one string."""
    for line in text.split("\n"):
        kind = _kind(line, known)
        yield kind, line if width is None else _broken(line, kind, width)


def _kind(line: str, known: Openings) -> Kind:
    if STEP.match(line):
        return "step"
    return next((kind for kind, opening in known.items() if line.lstrip().startswith(opening)), "plain")


def _broken(line: str, kind: Kind, width: int) -> str:
    mark = DANGER_MARK if kind == "danger" else ""
    return textwrap.fill(line.lstrip() if mark else line, width, initial_indent=mark, subsequent_indent=mark or " " * _hang(line, width),
                         break_long_words=False, break_on_hyphens=False)


def _hang(line: str, width: int) -> int:
    """How far the second line of a step, or of a row of a table, is set in."""
    if step := STEP.match(line):
        return step.end()
    columns_end = max((gap.end() for gap in GAP.finditer(line)), default=0)
    return columns_end if columns_end <= width // 2 else NARROW_HANG
