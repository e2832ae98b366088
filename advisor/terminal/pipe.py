"""`drafthand pipe`: one JSON line in, one JSON line out, until the input ends. Nothing that comes in stops it."""

import argparse
import json
import sys
from collections.abc import Iterator
from typing import BinaryIO

from advisor.clock import Clock, WallClock
from advisor.conversation import Conversation
from advisor.errors import CommandRefused, DrafthandError
from advisor.terminal import door, ready
from advisor.terminal.callersclock import CallersClock
from advisor.terminal.faults import unforeseen
from advisor.terminal.lines import LONGEST_LINE, ResetLine, read_line


def run(call: argparse.Namespace) -> int:
    if sys.stdin is None:
        raise CommandRefused("standard input is closed", "the lines come from there", "send them in through a pipe")
    pipe = Pipe(ready.conversation(call.cooker), WallClock())
    for raw in lines_of(sys.stdin.buffer):
        door.send(pipe.answer(raw))
    return 0


class Pipe:
    """One conversation with another program. A line that is refused leaves clock and conversation as they were."""

    def __init__(self, conversation: Conversation, real: Clock) -> None:
        self._conversation, self._real = conversation, real
        self._clock = CallersClock(real)
        self._count = 0

    def answer(self, raw: bytes) -> str:
        """One raw line to one line of JSON: a reply, or what was wrong."""
        self._count += 1
        try:
            return self._reply(raw)
        except DrafthandError as error:
            return self._error(str(error))
        except Exception as error:  # noqa: BLE001  a fault of ours costs one line, not the conversation
            return self._error(unforeseen(error))

    def _reply(self, raw: bytes) -> str:
        line = read_line(raw)
        if isinstance(line, ResetLine):
            self._clock.restart()
        now = self._clock.at(line.at_min)
        minute_of_day = self._real.minute_of_day() if line.at_min is None else None
        reply = line.put(self._conversation, now, minute_of_day)
        self._clock.keep(now, line.at_min)
        return reply.as_json()

    def _error(self, says: str) -> str:
        return json.dumps({"error": {"line": self._count, "says": says}}, ensure_ascii=False)


def lines_of(stream: BinaryIO) -> Iterator[bytes]:
    """Lines as they come in; of one that is too long only the beginning, the rest is let go by."""
    while raw := stream.readline(LONGEST_LINE + 1):
        rest = raw
        while len(rest) > LONGEST_LINE and not rest.endswith(b"\n"):
            rest = stream.readline(LONGEST_LINE + 1)
        yield raw
