"""The one door through which anything is printed. It knows streams and encodings, nothing of what is said."""

import os
import sys
from typing import TextIO

from advisor.errors import DrafthandError

CONTROLS = {code: None for code in (*range(32), *range(127, 160)) if code != ord("\n")}


class OutputLost(DrafthandError):
    """Nobody takes what is printed: a closed pipe, a closed stream, a full disk."""


def say(text: str, end: str = "\n") -> None:
    """Text for a person, on standard output. Raises OutputLost."""
    _write(sys.stdout, text.translate(CONTROLS) + end, _encoding(sys.stdout))


def ring() -> None:
    """The terminal's bell. Raises OutputLost."""
    _write(sys.stdout, "\a", "ascii")


def rub_out(cells: int) -> None:
    """Take away what stands in so many places left of the cursor, on a terminal. Raises OutputLost."""
    _write(sys.stdout, "\b \b" * cells, "ascii")


def send(json_line: str) -> None:
    """One line for a program, on standard output, always UTF-8. Raises OutputLost."""
    _write(sys.stdout, f"{json_line}\n", "utf-8")


def complain(sentence: str) -> None:
    """One sentence on standard error; where that is gone too, silence."""
    try:
        _write(sys.stderr, f"drafthand: {sentence}".translate(CONTROLS) + "\n", _encoding(sys.stderr))
    except OutputLost:
        pass


def is_terminal(stream: TextIO | None) -> bool:
    """Whether a person sits at the other end."""
    try:
        return stream is not None and stream.isatty()
    except ValueError:  # closed
        return False


def _encoding(stream: TextIO | None) -> str:
    return getattr(stream, "encoding", None) or "utf-8"


def _write(stream: TextIO | None, text: str, encoding: str) -> None:
    """Written and flushed at once, so that a loss shows here and not when the interpreter ends."""
    try:
        if stream is None:
            raise OSError("the stream is closed")
        stream.flush()
        stream.buffer.write(text.encode(encoding, "replace"))
        stream.buffer.flush()
    except (OSError, ValueError) as error:
        _drop(stream)
        reason = getattr(error, "strerror", None) or error
        raise OutputLost(f"the output cannot be written ({reason})".lower(), "nobody would read the rest",
                         "send it somewhere that stays open") from None


def _drop(stream: TextIO | None) -> None:
    """Point a lost stream at nothing; what is left in its buffer must not raise once more at the end."""
    try:
        if stream is not None:
            nothing = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nothing, stream.fileno())
            os.close(nothing)
    except (OSError, ValueError):
        pass
