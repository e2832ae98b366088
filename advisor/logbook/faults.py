"""What databases complain of, as errors of our own family. It knows their codes, nothing of tables."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from advisor.errors import LogbookError, LogbookUnwritable

Fault = tuple[str, str]  # what is the matter, what to do
FULL: Fault = ("the disk is full", "free some space")
READ_ONLY: Fault = ("it may only be read", "choose a folder you may write to with --data")
BUSY: Fault = ("another program has held it for too long", "end the other program")
PASSING: dict[int | str, Fault] = {  # by the primary code of SQLite, by the SQLSTATE of PostgreSQL
    sqlite3.SQLITE_FULL: FULL,
    sqlite3.SQLITE_READONLY: READ_ONLY,
    sqlite3.SQLITE_CANTOPEN: ("it cannot be opened", READ_ONLY[1]),
    sqlite3.SQLITE_PERM: ("it may not be touched", READ_ONLY[1]),
    sqlite3.SQLITE_IOERR: ("the disk fails or is full", "look at the disk"),
    sqlite3.SQLITE_BUSY: BUSY,
    sqlite3.SQLITE_LOCKED: BUSY,
    "53100": FULL,
    "25006": READ_ONLY,
    "55P03": BUSY,
}
DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}
PRIMARY = 0xFF  # the rest of an extended code says where it happened


@contextmanager
def as_ours(place: str) -> Iterator[None]:
    """A database's complaint raised inside comes out as LogbookUnwritable, or LogbookError where waiting won't help."""
    try:
        yield
    except SQLAlchemyError as error:
        raise ours(place, error) from error


def ours(place: str, error: SQLAlchemyError) -> LogbookError:
    cause = error.orig if isinstance(error, DBAPIError) else None
    code = _code(cause)
    if code in DAMAGED:
        return LogbookError(f"the logbook in {place} is damaged or no logbook at all", "nothing can be kept in it",
                            "choose another folder with --data, or put a copy back")
    matter, remedy = PASSING.get(code) or (_first_line(cause or error), "see to the database")
    return LogbookUnwritable(f"the logbook in {place} takes nothing ({matter})", "", remedy)


def is_busy(error: DBAPIError) -> bool:
    """Whether another writer is in the way: worth another try."""
    return _code(error.orig) in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def _code(cause: BaseException | None) -> int | str:
    return getattr(cause, "sqlstate", None) or getattr(cause, "sqlite_errorcode", 0) & PRIMARY


def _first_line(error: BaseException) -> str:
    return next((line for line in str(error).strip().splitlines() if line), type(error).__name__)[:120]
