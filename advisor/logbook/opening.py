"""The logbook as the rest of the program holds it: open it, ask it, write in it."""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from advisor.logbook import records
from advisor.logbook.connecting import Database
from advisor.logbook.migrating import migrate
from advisor.logbook.reader import Reader
from advisor.logbook.talkwriter import TalkWriter


def open_logbook(where: str | Path) -> "Logbook":
    """The logbook in a folder (made if it is not there), or at a PostgreSQL address, with the newest schema.

    Raises LogbookError: of a newer schema, damaged, no driver; LogbookUnwritable: read-only, out of reach.
    """
    database = Database(where)
    migrate(database)
    return Logbook(database)


class Logbook:
    """Every method is a transaction of its own; several things at once go through `reading()` and `writing()`.

    All may raise LogbookUnwritable; nothing is written then.
    """

    def __init__(self, database: Database) -> None:
        self._database = database

    @property
    def place(self) -> str:
        """Where it lies, as people name it; no password in it."""
        return self._database.place

    def close(self) -> None:
        self._database.close()

    @contextmanager
    def reading(self) -> Iterator[Reader]:
        """Questions that must fit together: all see the same moment."""
        with self._database.reading() as connection:
            yield Reader(connection)

    @contextmanager
    def writing(self) -> Iterator[TalkWriter]:
        """Entries of which all or none are made, while nobody else writes; safe once the block is left."""
        with self._database.writing() as connection:
            yield TalkWriter(connection)

    # -- asking -----------------------------------------------------------------------------------------------------

    def cooks(self, cooker: str | None = None) -> tuple[records.Cook, ...]:
        """All cooks, or those on one cooker, oldest first."""
        with self.reading() as book:
            return book.cooks(cooker)

    def cook(self, cook_id: int) -> records.Cook:
        """Raises LogbookError when there is none of that number."""
        with self.reading() as book:
            return book.cook(cook_id)

    def readings(self, cook_id: int, probe: records.Probe | None = None) -> tuple[records.Reading, ...]:
        """What the thermometers showed, oldest first; of one probe, or of all."""
        with self.reading() as book:
            return book.readings(cook_id, probe)

    def moves(self, cook_id: int) -> tuple[records.Move, ...]:
        """Where the vents were put, oldest first."""
        with self.reading() as book:
            return book.moves(cook_id)

    def lids(self, cook_id: int) -> tuple[int, ...]:
        """Moments (ms) at which the lid was opened."""
        with self.reading() as book:
            return book.lids(cook_id)

    def deeds(self, cook_id: int) -> tuple[records.Deed, ...]:
        """Steps that were carried out, oldest first."""
        with self.reading() as book:
            return book.deeds(cook_id)

    def advice(self, cook_id: int) -> tuple[records.Advice, ...]:
        """What was advised, oldest first."""
        with self.reading() as book:
            return book.advice(cook_id)

    def notes(self, cook_id: int) -> tuple[records.Note, ...]:
        with self.reading() as book:
            return book.notes(cook_id)

    def cookers(self) -> tuple[records.Cooker, ...]:
        with self.reading() as book:
            return book.cookers()

    def profile(self, cooker: str) -> dict[str, Any] | None:
        """What was kept of a cooker by `keep_profile`; None when nothing was."""
        with self.reading() as book:
            return book.profile(cooker)

    # -- writing ----------------------------------------------------------------------------------------------------

    def begin_cook(self, cooker: str, started_ms: int, target_f: float | None = None) -> int:
        """The number of a new cook that belongs to no talk, such as an imported one."""
        with self.writing() as book:
            return book.begin_cook(cooker, started_ms, target_f)

    def end_cook(self, cook_id: int, ended_ms: int, outcome: str | None = None) -> None:
        with self.writing() as book:
            book.end_cook(cook_id, ended_ms, outcome)

    def add_readings(self, cook_id: int, rows: Iterable[tuple[int, records.Probe, float]], origin: records.Origin) -> int:
        """Readings (at_ms, probe, °F) in bulk, all or none; those that are there already are left out.

        Gives back how many were new.
        """
        with self.writing() as book:
            return book.add_readings(cook_id, rows, origin)

    def add_moves(self, cook_id: int, rows: Iterable[tuple[int, records.Vent, float, float | None]]) -> int:
        """Vents put somewhere (at_ms, vent, opening, where it stood before); gives back how many were new."""
        with self.writing() as book:
            return book.add_moves(cook_id, rows)

    def add_lids(self, cook_id: int, moments: Iterable[int]) -> int:
        """The lid was opened at these moments (ms); gives back how many were new."""
        with self.writing() as book:
            return book.add_lids(cook_id, moments)

    def keep_profile(self, cooker: str, data: Mapping[str, Any]) -> None:
        """Keep what is known of a cooker, in place of what was kept before."""
        with self.writing() as book:
            book.keep_profile(cooker, data)
