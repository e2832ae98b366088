"""`drafthand`: the talk beside the fire. At a terminal with line editing, elsewhere line by line from standard input."""

import argparse
import sys
from collections.abc import Iterator
from typing import TextIO

from advisor.clock import WallClock
from advisor.errors import CommandRefused, DrafthandError
from advisor.terminal import commands, door, ready
from advisor.terminal.faults import unforeseen
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.talk import Talk

LEAVE_HINT = "Nothing typed. Ctrl-D or /quit leaves; what you told me is lost then."
HELP_HINT = "/help shows what else I understand."


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


def answer(talk: Talk, line: str) -> str:
    """The text for one line typed, whatever it holds."""
    try:
        if line.lstrip().startswith("/"):
            return commands.answer(talk, line)
        return talk.say(line).text
    except DrafthandError as error:
        return as_sentence(error)
    except Exception as error:  # noqa: BLE001  a fault of ours costs one line, not the conversation
        return unforeseen(error)


def as_sentence(error: DrafthandError) -> str:
    """What was wrong, as a line of the talk."""
    said = str(error)
    return said[:1].upper() + said[1:] + ("" if said.endswith((".", "?")) else ".")


def lines_of(stream: TextIO) -> Iterator[str]:
    """Lines as they come in; bytes that are no text are replaced."""
    for raw in stream.buffer:
        yield raw.decode("utf-8", "replace").strip()
