"""`drafthand`: the talk beside the fire. At a terminal with line editing, elsewhere line by line from standard input."""

import argparse
import sys
from collections.abc import Iterator
from typing import TextIO

from advisor.clock import WallClock
from advisor.errors import CommandRefused
from advisor.terminal import door, ready
from advisor.terminal.answering import answer
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.talk import Talk


def run(call: argparse.Namespace) -> int:
    if sys.stdin is None:
        raise CommandRefused("standard input is closed", "the words come from there", 'call drafthand ask "your words"')
    talk = Talk(ready.conversation(call.cooker), WallClock())
    if door.is_terminal(sys.stdin) and door.is_terminal(sys.stdout):
        from advisor.terminal.prompting import Prompting

        Prompting(talk).run()
    else:
        for line in lines_of(sys.stdin):
            door.say(laid_out(answer(talk, line), columns(), talk.openings) + "\n")
            if talk.over:
                break
    return 0


def lines_of(stream: TextIO) -> Iterator[str]:
    """Lines as they come in; bytes that are no text are replaced."""
    for raw in stream.buffer:
        yield raw.decode("utf-8", "replace").strip()
