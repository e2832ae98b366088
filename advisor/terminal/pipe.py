"""`drafthand pipe`: one JSON line in, one JSON line out, until the input ends. Nothing that comes in stops it.

With --data a line is answered once it is kept, and the next call goes on with the conversation, at_min included.
"""

import argparse
import json
import sys
from collections.abc import Iterator
from typing import BinaryIO

from advisor.clock import EpochClock
from advisor.conversation import Conversation
from advisor.errors import CommandRefused, DrafthandError
from advisor.session import Session
from advisor.terminal import door, ready
from advisor.terminal.faults import unforeseen
from advisor.terminal.lines import LONGEST_LINE, read_line


def run(call: argparse.Namespace) -> int:
    if sys.stdin is None:
        raise CommandRefused("standard input is closed", "the lines come from there", "send them in through a pipe")
    pipe = Pipe(_session(ready.conversation(call.cooker), call.data))
    for raw in lines_of(sys.stdin.buffer):
        door.send(pipe.answer(raw))
    return 0


def _session(conversation: Conversation, data: str | None) -> Session:
    if data is None:
        return Session(conversation, None, EpochClock())
    from advisor.terminal.books import kept

    return kept(conversation, data, EpochClock())


class Pipe:
    """One conversation with another program. A line that is refused leaves clock and conversation as they were."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._count = 0

    def answer(self, raw: bytes) -> str:
        """One raw line to one line of JSON: a reply, or what was wrong."""
        self._count += 1
        try:
            return read_line(raw).put(self._session).as_json()
        except DrafthandError as error:
            return self._error(str(error))
        except Exception as error:  # noqa: BLE001  a fault of ours costs one line, not the conversation
            return self._error(unforeseen(error))

    def _error(self, says: str) -> str:
        return json.dumps({"error": {"line": self._count, "says": says}}, ensure_ascii=False)


def lines_of(stream: BinaryIO) -> Iterator[bytes]:
    """Lines as they come in; of one that is too long only the beginning, the rest is let go by."""
    while raw := stream.readline(LONGEST_LINE + 1):
        rest = raw
        while len(rest) > LONGEST_LINE and not rest.endswith(b"\n"):
            rest = stream.readline(LONGEST_LINE + 1)
        yield raw
