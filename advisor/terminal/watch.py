"""`drafthand watch FILE|-`: follows what a thermometer writes, and speaks when there is something to do."""

import argparse
import queue
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from advisor.clock import EpochClock
from advisor.errors import CommandRefused
from advisor.importing.stream import Stream
from advisor.importing.telling import taken_for, wrong_lines
from advisor.importing.wishing import wishes
from advisor.importing.words import read_column_words
from advisor.logbook.records import MS_A_MINUTE
from advisor.terminal import door
from advisor.terminal.scale import scale_of, target_f
from advisor.terminal.watching import Minder
from advisor.watching.following import Follower, Lines

POLL_S = 0.5
AT_ONCE = 1 << 16


def run(call: argparse.Namespace) -> int:
    source = Standard() if call.file == "-" else File(Path(call.file))
    stream = Stream(read_column_words(), wishes(vars(call)))
    minder = Minder(call.data, call.cooker, target_f(call.target), as_json=call.json, scale=scale_of(call.target))
    with stopped_by_keyboard() as stop:
        follow(source, stream, minder, stop, call.once)
    if why := stream.unread():
        raise why
    minder.end()
    for line in wrong_lines(stream.wrong):
        door.complain(line.strip())
    return 0


@contextmanager
def stopped_by_keyboard() -> Iterator[threading.Event]:
    """Ctrl-C ends the watch between two turns, so that none is cut in half; a second one ends it at once."""
    stop = threading.Event()

    def first(number: int, frame: object) -> None:
        stop.set()
        signal.signal(signal.SIGINT, signal.default_int_handler)

    before = signal.signal(signal.SIGINT, first)
    try:
        yield stop
    finally:
        signal.signal(signal.SIGINT, before)


def follow(source: "File | Standard", stream: Stream, minder: Minder, stop: threading.Event, once: bool) -> None:
    """Until the input ends, or the person stops it. once: no longer than what is there already."""
    clock, told = EpochClock(), False
    while not stop.is_set() and (lines := source.lines()) is not None:
        now_ms = round(clock.minutes() * MS_A_MINUTE)
        if source.started_anew:
            stream.anew()
        rows = stream.add(lines, now_ms) if lines else []
        if stream.recipe and not told:
            told = True
            minder.begin(taken_for(stream.recipe), stream.recipe.scale, rows, now_ms)
        for measured, target in rows:
            if stop.is_set():
                return
            minder.take(measured, target, now_ms)
        if not lines:
            minder.nothing_came(now_ms)
            if once:
                return


class File:
    """The lines of a file that grows; [] when none has come for a while."""

    def __init__(self, path: Path) -> None:
        self._follower = Follower(path)
        self._pause = threading.Event()
        self.started_anew = False

    def lines(self) -> list[str] | None:
        lines = self._follower.poll()
        self.started_anew = self._follower.started_anew
        if not lines:
            self._pause.wait(POLL_S)
            lines = self._follower.poll()
            self.started_anew |= self._follower.started_anew
        return lines


class Standard:
    """The lines of standard input; [] when none has come for a while, None at its end."""

    started_anew = False

    def __init__(self) -> None:
        if sys.stdin is None:
            raise CommandRefused("standard input is closed", "the readings come from there", "send them in through a pipe")
        self._came: queue.Queue[list[str] | None] = queue.Queue(maxsize=64)
        threading.Thread(target=self._read, daemon=True).start()

    def lines(self) -> list[str] | None:
        try:
            return self._came.get(timeout=POLL_S)
        except queue.Empty:
            return []

    def _read(self) -> None:
        for lines in self._batches():
            self._came.put(lines)
        self._came.put(None)

    def _batches(self) -> Iterator[list[str]]:
        whole = Lines()
        while data := sys.stdin.buffer.read1(AT_ONCE):
            if lines := whole.add(data):
                yield lines
        if rest := whole.end():
            yield rest
