"""`drafthand`: the talk beside the fire. At a terminal with line editing, elsewhere and for screen readers line by line."""

import argparse
import os
import sys

from advisor.clock import EpochClock
from advisor.errors import CommandRefused, LogbookError
from advisor.session import Session
from advisor.settings import Settings
from advisor.terminal import door, ready
from advisor.terminal.plainly import Plainly
from advisor.terminal.practiceclock import paced
from advisor.terminal.talk import Talk

DRAW_NOTHING = ("dumb", "unknown")  # terminals as they call themselves


def run(call: argparse.Namespace) -> int:
    if sys.stdin is None:
        raise CommandRefused("standard input is closed", "the words come from there", 'call drafthand ask "your words"')
    settings = ready.settings()
    talk = Talk(session(call, settings), settings)
    typed = door.is_terminal(sys.stdin)
    if typed and door.is_terminal(sys.stdout) and not settings.screen_reader and os.environ.get("TERM") not in DRAW_NOTHING:
        from advisor.terminal.prompting import Prompting

        Prompting(talk).run()
    else:
        Plainly(talk, prompts=typed).run()
    return 0


def session(call: argparse.Namespace, settings: Settings) -> Session:
    """The talk that is kept, gone on with where one is open. Lines from a program are kept only where it says in what."""
    conversation, clock = ready.conversation(call.cooker), paced(EpochClock())
    if not (call.data or os.environ.get("DRAFTHAND_LOGBOOK") or door.is_terminal(sys.stdin)):
        return Session(conversation, None, clock)
    from advisor.terminal.books import kept

    try:
        return kept(conversation, call.data, clock)
    except LogbookError as error:
        return Session(conversation, None, clock, error)
