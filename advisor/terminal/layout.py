"""Text to the width of a terminal: words stay whole, steps hang, every line of a danger is marked. No colour here."""

import os
import re
import shutil
import sys
import textwrap

from advisor.terminal.door import is_terminal

NARROWEST = 20
DANGER_MARK = "!! "
STEP = re.compile(r"\d+\. ")


def columns() -> int | None:
    """The width to write to; None where no terminal and no COLUMNS asks for one."""
    if is_terminal(sys.stdout) or os.environ.get("COLUMNS", "").isdigit():
        return max(NARROWEST, shutil.get_terminal_size().columns)
    return None


def laid_out(text: str, width: int | None, danger: str) -> str:
    """`text` broken at blanks to `width`; as it is when None. `danger`: the word a warning of danger begins with."""
    if width is None:
        return text
    return "\n".join(_line(line, width, danger) for line in text.split("\n"))


def _line(line: str, width: int, danger: str) -> str:
    mark = DANGER_MARK if line.startswith(danger) else ""
    step = STEP.match(line)
    hang = " " * len(step.group()) if step else ""
    return textwrap.fill(line, width, initial_indent=mark, subsequent_indent=mark or hang,
                         break_long_words=False, break_on_hyphens=False)
