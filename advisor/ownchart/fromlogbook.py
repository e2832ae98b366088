"""Past cooks out of the logbook, as plain figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from statistics import median
from typing import TYPE_CHECKING, Any

from advisor.logbook.records import MS_A_MINUTE
from advisor.ownchart.pastcook import Moved, PastCook

if TYPE_CHECKING:
    from advisor.logbook import records
    from advisor.logbook.reader import Reader

DISTURB = frozenset({"burp_lid", "open_lid_slowly", "add_fuel", "add_wood", "remove_wood", "stir_fuel", "light", "clear_ash",
                     "take_food_off", "put_food_on", "probe_food"})
TOLD = ("food_on", "lid_open")  # words that say the lid was up just now
CONSISTENT_F = (-20.0, 130.0)   # air a cook stands in; anything else is a probe that lies somewhere hot


def past_cook(book: Reader, cook: records.Cook) -> PastCook:
    """One cook, minutes counted from its start. Raises LogbookError."""
    def minute(at_ms: float) -> float:
        return (at_ms - cook.started_ms) / MS_A_MINUTE

    readings, told = book.readings(cook.id), list(_told(book, cook))
    disturbed = [*book.lids(cook.id), *(deed.at_ms for deed in book.deeds(cook.id) if deed.act in DISTURB),
                 *(at_ms for at_ms, fact, value in told if fact in TOLD and value is True)]
    lit = [at_ms - float(value) * MS_A_MINUTE for at_ms, fact, value in told if fact == "lit_ago_min"]
    return PastCook(
        tuple((minute(one.at_ms), one.value_f) for one in readings if one.probe == "dome"),
        tuple(Moved(minute(move.at_ms), move.vent, move.opening, move.was) for move in book.moves(cook.id)),
        tuple(sorted(map(minute, disturbed))), minute(lit[0]) if lit else None,
        _outside(one.value_f for one in readings if one.probe == "ambient"))


def _outside(values: Iterable[float]) -> float | None:
    believed = [value for value in values if CONSISTENT_F[0] <= value <= CONSISTENT_F[1]]
    return median(believed) if believed else None


def _told(book: Reader, cook: records.Cook) -> Iterator[tuple[int, str, Any]]:
    """(moment, fact, value) told of this cooker while the cook went on; what was said of others is left out."""
    for turn in book.turns(cook.talk_id) if cook.talk_id is not None else ():
        reply = turn.reply or {}
        if cook.started_ms <= turn.at_ms <= (cook.ended_ms or turn.at_ms) and (reply.get("cooker") or "") in (cook.cooker, ""):
            yield from ((turn.at_ms, fact, value) for fact, value in (reply.get("heard") or {}).items())
