"""Lines from somebody who types at a terminal, read key by key: so what is half typed is known, and can be shown again.

The terminal's own line editing keeps it to itself. The same few keys work here: backspace, Ctrl-U, Ctrl-W, Ctrl-C, Ctrl-D.
"""

import codecs
import os
import re
import select
import signal
import termios
import tty
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from prompt_toolkit.utils import get_cwidth

from advisor.terminal import door

LOOK_EVERY_S = 0.5
MOST_READ = 65_536  # bytes at once
ENTER, RUB_OUT, END, ALL, WORD = "\r\n", "\x7f\b", "\x04", "\x15", "\x17"
NO_TEXT = re.compile(r"\x1b(?:[\[O][0-9;?]*[ -/]*[@-~]|[^\[O])")  # arrows and the like


class Typed:
    """half: what is typed of the line that is not ended. meanwhile: called again and again while no key is pressed.

    woken: whether the person put it aside (Ctrl-Z) and has taken it up again; who shows the line anew unsets it.
    """

    def __init__(self, descriptor: int, meanwhile: Callable[[], None]) -> None:
        self._descriptor, self._meanwhile = descriptor, meanwhile
        self._decoder = codecs.getincrementaldecoder("utf-8")("replace")
        self._keys: deque[str] = deque()
        self.half, self.woken = "", False

    def next(self) -> str | None:
        """The next line; None once the person has ended it. An interrupt drops what is half typed."""
        self.half = ""
        while True:
            while not self._keys:
                if not self._read():
                    return None
            key = self._keys.popleft()
            if key in ENTER:
                door.say("")
                return self.half.strip()
            if key == END and not self.half:
                return None
            self._take(key)

    def _take(self, key: str) -> None:
        if key in RUB_OUT:
            self._keep(self.half[:-1])
        elif key == WORD:
            self._keep(re.sub(r"\S*\s*$", "", self.half))
        elif key == ALL:
            self._keep("")
        elif key.isprintable():
            self.half += key
            door.say(key, end="")

    def _keep(self, left: str) -> None:
        """Take away from the end until so much is left."""
        door.rub_out(get_cwidth(self.half[len(left):]))
        self.half = left

    def _read(self) -> bool:
        """Whether keys came in; otherwise the terminal is gone."""
        while not select.select([self._descriptor], [], [], LOOK_EVERY_S)[0]:
            self._meanwhile()
        try:
            chunk = os.read(self._descriptor, MOST_READ)
        except OSError:
            chunk = b""
        self._keys.extend(NO_TEXT.sub("", self._decoder.decode(chunk)))
        return bool(chunk)


    @contextmanager
    def key_by_key(self) -> Iterator[None]:
        """The terminal gives every key at once and shows none by itself; as it was before when the block is left."""
        before = termios.tcgetattr(self._descriptor)
        tty.setcbreak(self._descriptor)
        earlier = signal.signal(signal.SIGCONT, lambda *_: self._wake())
        try:
            yield
        finally:
            signal.signal(signal.SIGCONT, earlier)
            termios.tcsetattr(self._descriptor, termios.TCSADRAIN, before)

    def _wake(self) -> None:
        """A shell had the terminal meanwhile."""
        tty.setcbreak(self._descriptor)
        self.woken = True
