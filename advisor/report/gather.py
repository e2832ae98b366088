"""From the logbook to the story of one cook. The only place of the report that knows how cooks are kept."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from itertools import pairwise
from typing import Any, Literal

from advisor.errors import DrafthandError
from advisor.logbook import records
from advisor.logbook.reader import Reader
from advisor.logbook.records import MS_A_MINUTE
from advisor.report.story import Advised, CookStory, Deed, FuelTold, LidUp, Note, Points, VentMove
from advisor.units import UnitStyle

BURP = "burp_lid"
SAME_LIFT_MS = 2 * MS_A_MINUTE  # a burp reported done belongs to a lid told so close to it; judgement
CELSIUS = UnitStyle(temperature="C", length="cm", mass="kg")

Told = tuple[int, str, Any]  # moment (ms), fact, value


@dataclass(frozen=True, slots=True)
class _Minutes:
    """Moments of the logbook as minutes of a cook."""

    start_ms: int

    def of(self, at_ms: int) -> float:
        return (at_ms - self.start_ms) / MS_A_MINUTE

    def if_known(self, at_ms: int | None) -> float | None:
        return None if at_ms is None else self.of(at_ms)


class NoSuchCook(DrafthandError):
    """No cook to report on."""


def last_finished(book: Reader) -> records.Cook:
    """The finished cook that began last. Raises NoSuchCook."""
    finished = [cook for cook in book.cooks() if cook.ended_ms is not None]
    if not finished:
        raise NoSuchCook("no finished cook stands in the logbook", "a report tells of one that is over",
                         "say in the chat when a cook is over, or name one with --cook NUMBER")
    return finished[-1]


def story_of(book: Reader, cook: records.Cook, zone: tzinfo | None = None) -> CookStory:
    """The story of a cook, its times of day in `zone` (None: the machine's own). Raises LogbookError."""
    minute = _Minutes(cook.started_ms)
    readings, deeds, advice = book.readings(cook.id), book.deeds(cook.id), book.advice(cook.id)
    moves, notes = book.moves(cook.id), book.notes(cook.id)
    told = list(_told(_turns(book, cook), cook.cooker))
    end = cook.ended_ms if cook.ended_ms is not None else _last((readings, deeds, advice, moves, notes), cook.started_ms)
    measured_at, dome = _dome(readings, minute)
    on, off, rested = _food(deeds, told)
    return CookStory(
        started=datetime.fromtimestamp(cook.started_ms / 1000, UTC).astimezone(zone), length_min=minute.of(end),
        number=cook.id, cooker=cook.cooker, kind=(book.profile(cook.cooker) or {}).get("kind", "large"),
        target_f=cook.target_f, outcome=cook.outcome or "", finished=cook.ended_ms is not None,
        measured_at=measured_at, dome=dome, meat=_curve(readings, "meat", minute),
        moves=tuple(VentMove(minute.of(move.at_ms), move.vent, move.opening, move.was) for move in moves),
        lids=tuple(_lids(book.lids(cook.id), deeds, told, minute)),
        deeds=tuple(Deed(minute.of(deed.at_ms), deed.act, deed.says) for deed in deeds),
        advice=tuple(_advised(one, minute) for one in advice),
        notes=tuple(Note(minute.of(note.at_ms), note.words) for note in notes),
        fuel=_fuel(told), food=str(next((value for _, fact, value in reversed(told) if fact == "food"), "")),
        food_on_min=minute.if_known(on), food_off_min=minute.if_known(off), rested_until_min=minute.if_known(rested))


def spoken_units(book: Reader, cook: records.Cook) -> UnitStyle | None:
    """The units in which the person was last answered during the cook; None where no answer shows it."""
    for turn in reversed(_turns(book, cook)):
        text = (turn.reply or {}).get("text") or ""
        if "°C" in text or "°F" in text:
            return CELSIUS if "°C" in text else UnitStyle()
    return None


def _turns(book: Reader, cook: records.Cook) -> list[records.Turn]:
    """The turns of the cook's talk while it went on."""
    if cook.talk_id is None:
        return []
    end = cook.ended_ms if cook.ended_ms is not None else float("inf")
    return [turn for turn in book.turns(cook.talk_id) if cook.started_ms <= turn.at_ms <= end]


def _told(turns: Iterable[records.Turn], cooker: str) -> Iterator[Told]:
    """What was told of this cooker, in words; nothing where a reply speaks of another."""
    for turn in turns:
        reply = turn.reply or {}
        if (reply.get("cooker") or "") in (cooker, ""):
            yield from ((turn.at_ms, fact, value) for fact, value in (reply.get("heard") or {}).items())
        for other in reply.get("also_heard") or ():
            if other["cooker"] == cooker:
                yield from ((turn.at_ms, fact, value) for fact, value in other["heard"].items())


def _last(kinds: Iterable[Sequence[Any]], start_ms: int) -> int:
    """The moment of the last thing heard of a cook."""
    return max((kind[-1].at_ms for kind in kinds if kind), default=start_ms)


def _dome(readings: Sequence[records.Reading], minute: _Minutes) -> tuple[Literal["dome", "grate"], Points]:
    """The curve of the dome; of the grate where a logger has no probe in the dome."""
    dome, grate = (_curve(readings, probe, minute) for probe in ("dome", "grate"))
    return ("grate", grate) if grate and not dome else ("dome", dome)


def _curve(readings: Iterable[records.Reading], probe: str, minute: _Minutes) -> Points:
    return tuple((minute.of(one.at_ms), one.value_f) for one in readings if one.probe == probe)


def _lids(lids: Iterable[int], deeds: Iterable[records.Deed], told: Iterable[Told], minute: _Minutes) -> Iterator[LidUp]:
    """The liftings told as such, as burps done, or as a lid that stands open; what is close together is one."""
    burps = [deed.at_ms for deed in deeds if deed.act == BURP]
    states = [(at_ms, value) for at_ms, fact, value in told if fact == "lid_open"]
    before = None
    for at_ms in sorted([*lids, *burps, *(at_ms for at_ms, is_open in states if is_open)]):
        if before is None or at_ms - before > SAME_LIFT_MS:
            before, shut = at_ms, _shut_after(at_ms, states)
            burp = any(0 <= burp - at_ms <= SAME_LIFT_MS for burp in burps)
            yield LidUp(minute.of(at_ms), burp, None if shut is None else (shut - at_ms) / MS_A_MINUTE)


def _shut_after(at_ms: int, states: Iterable[tuple[int, bool]]) -> int | None:
    """When the lid, told open at or just after a moment, was next told shut."""
    after = [state for state in states if state[0] >= at_ms]
    if not after or not after[0][1] or after[0][0] - at_ms > SAME_LIFT_MS:
        return None
    return next((moment for moment, is_open in after if not is_open), None)


def _advised(advice: records.Advice, minute: _Minutes) -> Advised:
    dangers = tuple(caution["says"] for caution in advice.cautions if caution["level"] == "danger")
    return Advised(minute.of(advice.at_ms), tuple(step["says"] for step in advice.steps), dangers)


def _fuel(told: list[Told]) -> FuelTold:
    """The first and the last fuel level; no first one where it rose in between, as fuel was added then."""
    levels = [value for _, fact, value in told if fact == "fuel_level"]
    weights = [value for _, fact, value in told if fact == "charcoal_kg"]
    fell = all(later <= earlier for earlier, later in pairwise(levels))
    first = levels[0] if len(levels) > 1 and fell else None
    weight = weights[0] if weights and first is not None else None
    return FuelTold(first, levels[-1] if levels else None, weight)


def _food(deeds: Iterable[records.Deed], told: list[Told]) -> tuple[int | None, int | None, int | None]:
    """(put on, taken off, rested until), moments; from steps done, from words, or None."""
    on = [deed.at_ms for deed in deeds if deed.act == "put_food_on"]
    on += [at_ms for at_ms, fact, value in told if fact == "food_on" and value is True]
    on += [at_ms - round(value * MS_A_MINUTE) for at_ms, fact, value in told if fact == "food_on_for_min"]
    start = min(on, default=None)
    off = [deed.at_ms for deed in deeds if deed.act == "take_food_off"]
    off += [at_ms for at_ms, fact, value in told if (fact, value) in (("food_on", False), ("resting", True))]
    end = min((at_ms for at_ms in off if start is None or at_ms > start), default=None)
    over = [at_ms for at_ms, fact, value in told if (fact, value) == ("resting", False)]
    return start, end, min((at_ms for at_ms in over if end is not None and at_ms > end), default=None)
