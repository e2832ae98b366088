"""Questions to the logbook, within one transaction. Every answer is a record or a tuple of them, oldest first."""

from collections.abc import Iterable
from typing import Any, TypeVar

import sqlalchemy as sa

from advisor.errors import LogbookError
from advisor.logbook import records, tables

Record = TypeVar("Record")

_COOK = sa.select(
    tables.cook.c.id, tables.cook.c.talk_id, tables.cooker.c.name.label("cooker"), tables.cook.c.started_ms,
    tables.cook.c.ended_ms, tables.cook.c.target_f, tables.cook.c.outcome,
).join(tables.cooker).order_by(tables.cook.c.started_ms, tables.cook.c.id)

_OPEN_VERSION = sa.select(tables.talk.c.id, tables.talk.c.version).where(tables.talk.c.closed_ms.is_(None)).order_by(
    tables.talk.c.id.desc())


class Reader:
    """Sees the logbook as it stands when its transaction begins."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def cooks(self, cooker: str | None = None) -> tuple[records.Cook, ...]:
        """All cooks, or those on one cooker."""
        named = _COOK if cooker is None else _COOK.where(tables.cooker.c.name == cooker)
        return self._all(records.Cook, named)

    def cook(self, cook_id: int) -> records.Cook:
        """Raises LogbookError when there is none of that number."""
        found = self._all(records.Cook, _COOK.where(tables.cook.c.id == cook_id))
        if not found:
            raise LogbookError(f"there is no cook {cook_id} in the logbook", "", "choose one that the list of cooks shows")
        return found[0]

    def readings(self, cook_id: int, probe: records.Probe | None = None) -> tuple[records.Reading, ...]:
        """What the thermometers showed; of one probe, or of all."""
        of_cook = self._of_cook(tables.reading, ("at_ms", "probe", "value_f", "origin"), cook_id)
        return self._all(records.Reading, of_cook if probe is None else of_cook.where(tables.reading.c.probe == probe))

    def moves(self, cook_id: int) -> tuple[records.Move, ...]:
        """Where the vents were put."""
        return self._all(records.Move, self._of_cook(tables.vent_move, ("at_ms", "vent", "opening", "was"), cook_id))

    def lids(self, cook_id: int) -> tuple[int, ...]:
        """Moments (ms) at which the lid was opened."""
        return tuple(self._connection.scalars(self._of_cook(tables.lid, ("at_ms",), cook_id)))

    def deeds(self, cook_id: int) -> tuple[records.Deed, ...]:
        """Steps that were carried out."""
        return self._all(records.Deed, self._of_cook(tables.deed, ("at_ms", "act", "says"), cook_id))

    def advice(self, cook_id: int) -> tuple[records.Advice, ...]:
        columns = ("at_ms", "text", "steps", "cautions", "forecast")
        return self._all(records.Advice, self._of_cook(tables.advice, columns, cook_id))

    def notes(self, cook_id: int) -> tuple[records.Note, ...]:
        return self._all(records.Note, self._of_cook(tables.note, ("at_ms", "words"), cook_id))

    def cookers(self) -> tuple[records.Cooker, ...]:
        """All cookers, in the order in which they were first heard of."""
        columns = tables.cooker.c
        return self._all(records.Cooker, sa.select(columns.id, columns.name, columns.profile).order_by(columns.id))

    def profile(self, cooker: str) -> dict[str, Any] | None:
        """What was kept of a cooker by `keep_profile`; None when nothing was."""
        return self._connection.scalar(sa.select(tables.cooker.c.profile).where(tables.cooker.c.name == cooker))

    def open_talk(self) -> records.Talk | None:
        """The conversation that is going on; there is one at most."""
        found = self._all(records.Talk, sa.select(tables.talk).where(tables.talk.c.closed_ms.is_(None)))
        return found[-1] if found else None

    def open_version(self) -> tuple[int, int] | None:
        """(id, version) of the open talk: quicker than reading all its state."""
        found = self._connection.execute(_OPEN_VERSION).first()
        return (found.id, found.version) if found else None

    def turns(self, talk_id: int) -> tuple[records.Turn, ...]:
        columns = [tables.turn.c[name] for name in ("talk_id", "n", "at_ms", "kind", "content", "reply")]
        of_talk = sa.select(*columns).where(tables.turn.c.talk_id == talk_id)
        return self._all(records.Turn, of_talk.order_by(tables.turn.c.n))

    def _of_cook(self, table: sa.Table, names: Iterable[str], cook_id: int) -> sa.Select:
        wanted = sa.select(*(table.c[name] for name in names)).where(table.c.cook_id == cook_id)
        return wanted.order_by(table.c.at_ms, *table.primary_key.columns)

    def _all(self, kind: type[Record], wanted: sa.Select) -> tuple[Record, ...]:
        return tuple(kind(*row) for row in self._connection.execute(wanted))
