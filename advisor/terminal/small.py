"""A reply that is taller than the screen: what has scrolled off it and must not be missed is said once more at its end."""

from collections.abc import Sequence

from advisor.terminal.layout import Kind, lines

ABOVE = "In short, the steps stand above: "
BELOW = 2  # the prompt and the line under it


def said_again(pieces: Sequence[tuple[Kind, str]], rows: int, width: int | None, in_short: str) -> list[tuple[Kind, str]]:
    """Dangers, and in a few words what is to be done, as far as they stand above the first row that is seen.

    pieces: the laid out lines of the reply, each with its kind; rows, width: of the screen; in_short: the step in hand.
    """
    again: list[tuple[Kind, str]] = []
    while True:
        gone = _scrolled_off(pieces, rows - BELOW - _height(again))
        more = [piece for piece in gone if piece[0] == "danger"]
        if in_short and any(kind == "step" for kind, _ in gone):
            more += lines(f"{ABOVE}{in_short}.", width, {})
        if len(more) == len(again):
            return more
        again = more


def _scrolled_off(pieces: Sequence[tuple[Kind, str]], room: int) -> list[tuple[Kind, str]]:
    """Those of which the first line is not seen, where so many lines can be; a blank line follows the last."""
    left = room - 1
    seen = 0
    for _, text in reversed(pieces):
        left -= text.count("\n") + 1
        if left < 0:
            break
        seen += 1
    return list(pieces[:len(pieces) - seen])


def _height(pieces: Sequence[tuple[Kind, str]]) -> int:
    """Lines, a blank one after them; none where there is nothing."""
    return sum(text.count("\n") + 1 for _, text in pieces) + bool(pieces)
