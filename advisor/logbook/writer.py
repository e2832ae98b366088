"""Entries into the logbook, within one transaction that nobody else writes beside. Bulk entries may be given twice."""

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

import sqlalchemy as sa
from sqlalchemy.dialects import postgresql, sqlite

from advisor.logbook import records, tables
from advisor.logbook.bulk import insert_readings
from advisor.logbook.reader import Reader

INSERT = {"sqlite": sqlite.insert, "postgresql": postgresql.insert}  # the two that know ON CONFLICT


class Writer(Reader):
    """What it writes is seen by others, and safe, once its transaction is committed."""

    # -- cookers and cooks ------------------------------------------------------------------------------------------

    def cooker_id(self, name: str) -> int:
        """The number of a cooker, entered if it is new."""
        self._add(tables.cooker, [{"name": plain(name)}])
        return self._connection.scalar(sa.select(tables.cooker.c.id).where(tables.cooker.c.name == plain(name)))

    def keep_profile(self, cooker: str, data: Mapping[str, Any]) -> None:
        """Keep what is known of a cooker, in place of what was kept before."""
        self._change(tables.cooker, self.cooker_id(cooker), profile=dict(data))

    def begin_cook(self, cooker: str, started_ms: int, target_f: float | None = None) -> int:
        """The number of a new cook that belongs to no talk, such as an imported one."""
        return self._insert(tables.cook, cooker_id=self.cooker_id(cooker), started_ms=started_ms, target_f=target_f)

    def end_cook(self, cook_id: int, ended_ms: int, outcome: str | None = None) -> None:
        """A cook is over. One that ended before stays as it ended. Raises LogbookError when there is none."""
        if self.cook(cook_id).ended_ms is None:
            self._change(tables.cook, cook_id, ended_ms=ended_ms, outcome=outcome and plain(outcome))

    def stretch_cook(self, cook_id: int, started_ms: int, ended_ms: int) -> None:
        """An imported cook lasted at least from `started_ms` to `ended_ms`; one of a talk has its own start and end."""
        columns = tables.cook.c
        found = self._connection.execute(sa.select(columns.started_ms, columns.ended_ms, columns.talk_id)
                                         .where(columns.id == cook_id)).one()
        if found.talk_id is None:
            self._change(tables.cook, cook_id, started_ms=min(started_ms, found.started_ms),
                         ended_ms=max(ended_ms, found.ended_ms or ended_ms))

    # -- what happens in a cook -------------------------------------------------------------------------------------

    def add_readings(self, cook_id: int, rows: Iterable[tuple[int, records.Probe, float]], origin: records.Origin) -> int:
        """Readings (at_ms, probe, °F), any number; one whose moment and probe are there already is left out.

        Gives back how many were new.
        """
        return insert_readings(self._connection, cook_id, list(rows), origin)

    def add_moves(self, cook_id: int, rows: Iterable[tuple[int, records.Vent, float, float | None]]) -> int:
        """Vents put somewhere (at_ms, vent, opening, where it stood before); gives back how many were new."""
        return self._add(tables.vent_move, [
            {"cook_id": cook_id, "at_ms": at_ms, "vent": vent, "opening": opening, "was": was}
            for at_ms, vent, opening, was in rows])

    def add_lids(self, cook_id: int, moments: Iterable[int]) -> int:
        """The lid was opened at these moments (ms); gives back how many were new."""
        return self._add(tables.lid, [{"cook_id": cook_id, "at_ms": at_ms} for at_ms in moments])

    def add_note(self, cook_id: int, at_ms: int, words: str) -> None:
        self._insert(tables.note, cook_id=cook_id, at_ms=at_ms, words=plain(words))

    # -- one statement ----------------------------------------------------------------------------------------------

    def _insert(self, table: sa.Table, **values: Any) -> int:
        return self._connection.execute(table.insert(), values).inserted_primary_key[0]

    def _change(self, table: sa.Table, number: int, **values: Any) -> None:
        self._connection.execute(_changing(table), {"number": number, **values})

    def _add(self, table: sa.Table, rows: list[dict[str, Any]]) -> int:
        """Enter what is not there yet, by the table's own unique key; gives back how many rows that were."""
        before = self._count(table, rows)
        if rows:
            self._connection.execute(INSERT[self._connection.dialect.name](table).on_conflict_do_nothing(), rows)
        return self._count(table, rows) - before

    def _count(self, table: sa.Table, rows: list[dict[str, Any]]) -> int:
        """Rows that are there of the cook, the vents and the time that `rows` are about; executemany counts differ from
        driver to driver.
        """
        if not rows or "cook_id" not in rows[0]:
            return 0
        moments = [row["at_ms"] for row in rows]
        where = [table.c.cook_id == rows[0]["cook_id"], table.c.at_ms.between(min(moments), max(moments))]
        if "vent" in rows[0]:
            where.append(table.c.vent.in_({row["vent"] for row in rows}))
        return self._connection.scalar(sa.select(sa.func.count()).select_from(table).where(*where)) or 0


@cache
def _changing(table: sa.Table) -> sa.Update:
    return table.update().where(table.c.id == sa.bindparam("number"))  # once: building it costs more than running it


def plain(text: str) -> str:
    """Text as both databases take it: no NUL, no half characters."""
    return text.replace("\0", "").encode("utf-8", "replace").decode("utf-8")
