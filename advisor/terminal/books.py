"""Which logbook a command works on: the one named in the call, else the one of the settings, else the usual folder."""

import argparse
import os

import platformdirs

from advisor.clock import Clock
from advisor.conversation import Conversation
from advisor.errors import CommandRefused, LogbookUnwritable
from advisor.logbook.opening import Logbook, open_logbook
from advisor.session import Session
from advisor.terminal.ownlore import know
from advisor.terminal.ready import settings


def open_book(named: str | None) -> Logbook:
    """Raises LogbookError."""
    usual = platformdirs.user_data_path("drafthand", appauthor=False)
    return open_logbook(named or os.environ.get("DRAFTHAND_LOGBOOK") or settings().logbook or usual)


def chosen(call: argparse.Namespace) -> int | None:
    """The number of the cook a call names, alone or behind --cook. Raises CommandRefused for two of them."""
    if None not in (call.number, call.cook) and call.number != call.cook:
        raise CommandRefused(f"both cook {call.number} and cook {call.cook} are named", "", "name one of them")
    return call.cook if call.number is None else call.number


def kept(conversation: Conversation, named: str | None, clock: Clock) -> Session:
    """The conversation kept in that logbook. One that takes nothing now is done without, and the session says so.

    Raises LogbookError for one that is of no use at all, such as a damaged one.
    """
    try:
        return know(Session(conversation, open_book(named), clock))
    except LogbookUnwritable as error:
        return Session(conversation, None, clock, error)
