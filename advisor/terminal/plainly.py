"""The chat line by line: for input that is no terminal, and for screen readers. Nothing is drawn anew.

A wait that ends is said as a line of its own, even halfway through a line being typed; what was typed is shown again below.
"""

import os
import select
import sys
from collections.abc import Callable
from itertools import count
from typing import Protocol

from advisor.terminal import door
from advisor.terminal.answering import answer
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.talk import Talk

LOOK_EVERY_S = 0.5
LOOKS_A_LOOK_IN = 4  # looks at the timers for each at what another till has told: every two seconds
MOST_READ = 65_536   # bytes at once


class Source(Protocol):
    """Where the lines come from. half: what is typed of the next one, as far as that is known; woken: whether that has to
    be shown again."""

    half: str
    woken: bool

    def next(self) -> str | None: ...


class Plainly:
    """prompts: whether a person types here, who is shown where to type."""

    def __init__(self, talk: Talk, prompts: bool) -> None:
        self._talk, self._prompts, self._looks = talk, prompts, count(1)
        self._lines: Source = Lines(sys.stdin.fileno(), self._meanwhile)

    def run(self) -> None:
        """Until the input ends or the person leaves."""
        if not (self._prompts and door.is_terminal(sys.stdout)):
            return self._run()
        from advisor.terminal.keys import Typed

        self._lines = typed = Typed(sys.stdin.fileno(), self._meanwhile)
        with typed.key_by_key():
            self._run()

    def _run(self) -> None:
        if self._prompts:
            self._show(self._talk.welcome())
        while not self._talk.over:
            self._prompt()
            try:
                line = self._lines.next()
            except KeyboardInterrupt:
                if not self._prompts:
                    raise
                self._show(f"\n{self._talk.leave_hint}")
                continue
            if line is None:
                break
            self._show(answer(self._talk, line))

    def _meanwhile(self) -> None:
        """Look in at the other tills, and say which waits are over."""
        if next(self._looks) % LOOKS_A_LOOK_IN == 0:
            self._talk.session.look_in()
        for line in self._talk.reminders():
            door.say(("\n" if self._prompts else "") + self._laid_out(line))
            if self._prompts and self._talk.rings:
                door.ring()
            self._show_line()
        if self._lines.woken:
            self._lines.woken = False
            self._show_line()

    def _show_line(self) -> None:
        """The line that is being typed, as far as it is known."""
        self._prompt()
        door.say(self._lines.half, end="")

    def _prompt(self) -> None:
        if self._prompts:
            door.say(self._talk.prompt, end="")

    def _show(self, text: str) -> None:
        door.say(self._laid_out(text) + "\n")

    def _laid_out(self, text: str) -> str:
        return laid_out(text, columns(), self._talk.openings)


class Lines:
    """Lines as they come in; bytes that are no text are replaced. An interrupt in between loses none of them.

    meanwhile: called again and again while none come in.
    """

    half, woken = "", False  # a terminal keeps to itself what is half typed, and shows it again by itself

    def __init__(self, descriptor: int, meanwhile: Callable[[], None]) -> None:
        self._descriptor, self._meanwhile = descriptor, meanwhile
        self._begun, self._ended = b"", False

    def next(self) -> str | None:
        """The next line; None once the input has ended."""
        while b"\n" not in self._begun and not self._ended:
            self._read()
        if not self._begun:
            return None
        raw, _, self._begun = self._begun.partition(b"\n")
        return raw.decode("utf-8", "replace").strip()

    def _read(self) -> None:
        while not select.select([self._descriptor], [], [], LOOK_EVERY_S)[0]:
            self._meanwhile()
        chunk = os.read(self._descriptor, MOST_READ)
        self._begun, self._ended = self._begun + chunk, not chunk
