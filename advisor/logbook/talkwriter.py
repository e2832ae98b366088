"""Entries that a conversation makes in the logbook: its turns, and what each tells, corrects and takes back."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from functools import cache
from typing import Any

import sqlalchemy as sa

from advisor.logbook import records, tables
from advisor.logbook.writer import INSERT, Writer, plain


class TalkWriter(Writer):
    """Of two words about one moment the newer counts; what was taken back goes."""

    # -- talks ------------------------------------------------------------------------------------------------------

    def open_new_talk(self, epoch_ms: int, opened_ms: int, state: Mapping[str, Any]) -> int:
        """The number of a new talk, at version 0. Whoever opens it has closed the one before."""
        return self._insert(tables.talk, epoch_ms=epoch_ms, opened_ms=opened_ms, version=0, state=state)

    def close_talk(self, talk_id: int, ended_ms: int, outcome: str) -> None:
        """A talk is over, and with it every cook of it that goes on."""
        columns = tables.cook.c
        self._connection.execute(tables.cook.update().where(columns.talk_id == talk_id, columns.ended_ms.is_(None))
                                 .values(ended_ms=ended_ms, outcome=outcome))
        self._change(tables.talk, talk_id, closed_ms=ended_ms)

    def add_turn(self, turn: records.Turn, state: Mapping[str, Any]) -> None:
        """The n-th turn of a talk, and where the talk stands after it (version n)."""
        self._insert(tables.turn, talk_id=turn.talk_id, n=turn.n, at_ms=turn.at_ms, kind=turn.kind, content=turn.content,
                     reply=turn.reply)
        self._change(tables.talk, turn.talk_id, version=turn.n, state=state)

    # -- cooks ------------------------------------------------------------------------------------------------------

    def begin_cook_of(self, talk_id: int, cooker: str, started_ms: int) -> int:
        """The number of a new cook that is told of in a talk."""
        return self._insert(tables.cook, talk_id=talk_id, cooker_id=self.cooker_id(cooker), started_ms=started_ms)

    def aim(self, cook_id: int, target_f: float) -> None:
        """The target of a cook is another."""
        self._change(tables.cook, cook_id, target_f=target_f)

    def name_cooker(self, cook_id: int, cooker: str) -> None:
        """The cook was on this cooker."""
        self._change(tables.cook, cook_id, cooker_id=self.cooker_id(cooker))

    # -- what a turn tells ------------------------------------------------------------------------------------------

    def put_readings(self, cook_id: int, readings: Iterable[records.Reading]) -> None:
        """Readings, each in place of any other of its moment and probe."""
        self._put(tables.reading, ("at_ms", "probe"), [{"cook_id": cook_id, **asdict(reading)} for reading in readings])

    def put_moves(self, cook_id: int, moves: Iterable[records.Move]) -> None:
        """Where vents were put, each in place of any other word about its moment and vent."""
        self._put(tables.vent_move, ("at_ms", "vent"), [{"cook_id": cook_id, **asdict(move)} for move in moves])

    def add_deed(self, cook_id: int, deed: records.Deed) -> None:
        self._insert(tables.deed, cook_id=cook_id, at_ms=deed.at_ms, act=plain(deed.act), says=plain(deed.says))

    def add_advice(self, cook_id: int, advice: records.Advice) -> None:
        self._insert(tables.advice, cook_id=cook_id, at_ms=advice.at_ms, text=plain(advice.text), steps=advice.steps,
                     cautions=advice.cautions, forecast=advice.forecast)

    # -- what a turn takes back -------------------------------------------------------------------------------------

    def drop_reading(self, cook_id: int, at_ms: int, probe: str) -> None:
        self._drop(tables.reading, cook_id=cook_id, at_ms=at_ms, probe=probe)

    def drop_move(self, cook_id: int, at_ms: int, vent: str) -> None:
        self._drop(tables.vent_move, cook_id=cook_id, at_ms=at_ms, vent=vent)

    def drop_lid(self, cook_id: int, at_ms: int) -> None:
        self._drop(tables.lid, cook_id=cook_id, at_ms=at_ms)

    def drop_deed(self, cook_id: int, deed: records.Deed) -> None:
        self._drop(tables.deed, cook_id=cook_id, at_ms=deed.at_ms, act=deed.act, says=plain(deed.says))

    def _put(self, table: sa.Table, key: tuple[str, ...], rows: list[dict[str, Any]]) -> None:
        if rows:
            self._connection.execute(_putting(table, ("cook_id", *key), self._connection.dialect.name), rows)

    def _drop(self, table: sa.Table, **key: Any) -> None:
        self._connection.execute(table.delete().where(*(table.c[name] == value for name, value in key.items())))


@cache
def _putting(table: sa.Table, key: tuple[str, ...], dialect: str) -> sa.Insert:
    entry = INSERT[dialect](table)
    rest = {column.name: entry.excluded[column.name] for column in table.columns if column.name not in ("id", *key)}
    return entry.on_conflict_do_update(index_elements=key, set_=rest)
