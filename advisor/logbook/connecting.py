"""Connections to SQLite or PostgreSQL that keep what was committed, and wait for another writer instead of failing.

A writing transaction takes the one lock all writers share before it reads, so nothing it has read can be stale.
"""

import random
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import sqlalchemy as sa
from sqlalchemy.exc import ArgumentError, DBAPIError

from advisor.clock import pause
from advisor.errors import LogbookError, LogbookUnwritable
from advisor.logbook.faults import as_ours, is_busy

FILE = "logbook.sqlite"
BUSY_MS = 2000           # SQLite's own waiting, once
TRIES = 15               # of BUSY_MS each: half a minute, longer than any import holds the lock
PAUSE_S = 0.05           # at most, between two tries; by chance, so that two who wait do not stay in step
CONNECT_S = 5            # a server that does not answer by then is taken for out of reach
# The same for a connection that stands: without this a talk over wireless waits a quarter of an hour when that drops out.
PATIENCE = {"connect_timeout": CONNECT_S, "tcp_user_timeout": CONNECT_S * 1000, "keepalives_idle": CONNECT_S,
            "keepalives_interval": 1, "keepalives_count": CONNECT_S}
LOCK_KEY = 0x6472616674  # which of PostgreSQL's advisory locks is ours: "draft" in ASCII
WRITES = "drafthand_writes"
WANTED = "give postgresql://user@host/name, or a folder"


class Database:
    """One database. place: as it is named to people."""

    def __init__(self, where: str | Path) -> None:
        address = _address(where)
        self.place = address.render_as_string() if address.host or address.get_backend_name() != "sqlite" else str(where)
        with as_ours(self.place):
            self._engine = _sqlite(address) if address.get_backend_name() == "sqlite" else _postgresql(address)

    @contextmanager
    def reading(self) -> Iterator[sa.Connection]:
        """One transaction that sees what is committed, and changes nothing."""
        with as_ours(self.place), self._begun(writes=False) as connection, connection.get_transaction():
            yield connection

    @contextmanager
    def writing(self) -> Iterator[sa.Connection]:
        """One transaction with the writers' lock held; committed at the end, undone when anything is raised.

        Raises LogbookUnwritable, also when the lock can't be had.
        """
        with as_ours(self.place), self._begun(writes=True) as connection, connection.get_transaction():
            yield connection

    def close(self) -> None:
        self._engine.dispose()

    def _begun(self, writes: bool) -> sa.Connection:
        """A connection inside a transaction, tried again while another process is in the way."""
        for tries_left in reversed(range(TRIES)):
            try:
                return self._begin(writes)
            except DBAPIError as error:
                if not tries_left or not is_busy(error):
                    raise
                pause(random.uniform(0, PAUSE_S))
        raise AssertionError("the last try returns or raises")

    def _begin(self, writes: bool) -> sa.Connection:
        connection = self._engine.connect().execution_options(**{WRITES: writes})
        try:
            connection.begin()
            if writes and connection.dialect.name == "postgresql":
                connection.execute(sa.select(sa.func.pg_advisory_xact_lock(LOCK_KEY)))
        except BaseException:
            connection.close()
            raise
        return connection


def _address(where: str | Path) -> sa.URL:
    """A folder or a database's address as SQLAlchemy's. Raises LogbookError for one of another make."""
    if "://" not in str(where):
        return sa.URL.create("sqlite", database=str(Path(where).expanduser() / FILE))
    try:
        address = sa.make_url(str(where))
    except (ArgumentError, ValueError):  # neither says what was typed: a password may stand in it
        raise LogbookError("the logbook's address can't be read", "", WANTED) from None
    if address.get_backend_name() not in ("postgresql", "postgres"):
        raise LogbookError(f"the logbook's address starts with {address.drivername}://", "only PostgreSQL is reached so",
                           WANTED)
    return address.set(drivername="postgresql+psycopg")


def _sqlite(address: sa.URL) -> sa.Engine:
    folder = Path(str(address.database)).parent
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise LogbookUnwritable(f"the folder {folder} cannot be made ({error.strerror})", "the logbook lies there",
                           "choose another with --data") from None
    engine = sa.create_engine(address)
    sa.event.listen(engine, "connect", _prepare_sqlite)
    sa.event.listen(engine, "begin", _begin_sqlite)
    return engine


def _prepare_sqlite(raw: sa.engine.interfaces.DBAPIConnection, _record: object) -> None:
    """WAL lets readers read beside a writer; FULL makes a commit outlast a power cut."""
    raw.isolation_level = None  # so that we, not the driver, begin transactions
    raw.execute(f"PRAGMA busy_timeout = {BUSY_MS}")
    raw.execute("PRAGMA foreign_keys = ON")
    raw.execute("PRAGMA synchronous = FULL")
    if raw.execute("PRAGMA journal_mode").fetchone() != ("wal",):
        raw.execute("PRAGMA journal_mode = WAL")


def _begin_sqlite(connection: sa.Connection) -> None:
    connection.exec_driver_sql("BEGIN IMMEDIATE" if connection.get_execution_options().get(WRITES) else "BEGIN")


def _postgresql(address: sa.URL) -> sa.Engine:
    try:
        engine = sa.create_engine(address, connect_args=PATIENCE, pool_pre_ping=True)
    except ModuleNotFoundError:
        raise LogbookError("the logbook's address is PostgreSQL's, and its driver is not installed", "",
                           'pip install "drafthand[stand]"') from None
    sa.event.listen(engine, "connect", _prepare_postgresql)
    return engine


def _prepare_postgresql(raw: sa.engine.interfaces.DBAPIConnection, _record: object) -> None:
    with raw.cursor() as cursor:
        cursor.execute(f"SET lock_timeout = '{BUSY_MS * TRIES}ms'")
        cursor.execute("SET synchronous_commit = on")
    raw.commit()
