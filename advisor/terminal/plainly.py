"""The chat line by line: for input that is no terminal, and for screen readers. Nothing is drawn anew.

A wait that ends is said as a line of its own, even halfway through a line being typed: the terminal keeps what was typed.
"""

import os
import select
import sys
from collections.abc import Callable, Iterator

from advisor.terminal import door
from advisor.terminal.answering import answer
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.talk import Talk

LOOK_EVERY_S = 0.5
MOST_READ = 65_536  # bytes at once


class Plainly:
    """prompts: whether a person types here, who is shown where to type."""

    def __init__(self, talk: Talk, prompts: bool) -> None:
        self._talk, self._prompts = talk, prompts

    def run(self) -> None:
        """Until the input ends or the person leaves."""
        if self._prompts:
            self._show(self._talk.welcome())
        lines = lines_of(sys.stdin.fileno(), self._meanwhile)
        while not self._talk.over:
            try:
                self._prompt()
                self._show(answer(self._talk, next(lines)))
            except StopIteration:
                break
            except KeyboardInterrupt:
                if not self._prompts:
                    raise
                self._show(f"\n{self._talk.leave_hint}")

    def _meanwhile(self) -> None:
        """Say which waits are over."""
        for line in self._talk.reminders():
            door.say(("\n" if self._prompts else "") + self._laid_out(line))
            if self._prompts and self._talk.rings:
                door.ring()
            self._prompt()

    def _prompt(self) -> None:
        if self._prompts:
            door.say(self._talk.prompt, end="")

    def _show(self, text: str) -> None:
        door.say(self._laid_out(text) + "\n")

    def _laid_out(self, text: str) -> str:
        return laid_out(text, columns(), self._talk.openings)


def lines_of(descriptor: int, meanwhile: Callable[[], None]) -> Iterator[str]:
    """Lines as they come in; bytes that are no text are replaced. `meanwhile` is called again and again while none do."""
    waiting = b""
    while chunk := _read(descriptor, meanwhile):
        *whole, waiting = (waiting + chunk).split(b"\n")
        yield from map(_text, whole)
    if waiting:
        yield _text(waiting)


def _read(descriptor: int, meanwhile: Callable[[], None]) -> bytes:
    """What came in, or nothing at the end of it."""
    while not select.select([descriptor], [], [], LOOK_EVERY_S)[0]:
        meanwhile()
    return os.read(descriptor, MOST_READ)


def _text(raw: bytes) -> str:
    return raw.decode("utf-8", "replace").strip()
