"""What a page expects, rewritten to what comes out now: always on purpose, never as part of a test."""

from pathlib import Path

from advisor.errors import TranscriptError
from advisor.rulebook.loader import Rulebook
from advisor.transcripts.format import Pin, read_page
from advisor.transcripts.replay import play


def accept(path: Path, rulebook: Rulebook) -> str:
    """Rewrite the page and give the difference, "" when there is none.

    Raises TranscriptError, and writes nothing, when wording that was pinned is not said any more: that line wants a
    person's eye.
    """
    played = play(read_page(path), rulebook)
    for turn, now in zip(played.page.turns, played.pins, strict=True):
        if lost := _words_lost(turn.pins, now):
            raise TranscriptError(f"{path}:{lost.line}: nothing like {lost.text!r} is said any more", "",
                                  "rewrite that line by hand, then accept again")
    if played.as_written:
        return ""
    _write(path, "\n".join(played.lines()))
    return played.difference()


def _words_lost(before: tuple[Pin, ...], now: tuple[Pin, ...]) -> Pin | None:
    return next((pin for pin in before if pin.kind == "words" and pin not in now), None)


def _write(path: Path, text: str) -> None:
    try:
        path.write_text(text, encoding="utf-8")
    except OSError as error:
        raise TranscriptError(f"{path} cannot be written ({error.strerror})", "", "check that it may be") from None
