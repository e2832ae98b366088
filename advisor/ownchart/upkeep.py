"""What past cooks taught about a cooker, kept beside its name in the logbook and brought up to date when a cook is over."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from advisor.outlook.lore import learn_into
from advisor.ownchart.chart import Chart, chart_of
from advisor.ownchart.fromlogbook import past_cook
from advisor.ownchart.known import base_of, finished_on, kept_profile
from advisor.ownchart.pastcook import PastCook
from advisor.profile import CookerProfile
from advisor.rulebook.catalogue import VentChart

if TYPE_CHECKING:
    from advisor.logbook.opening import Logbook
    from advisor.logbook.reader import Reader
    from advisor.thermal.learn import Cook

NEWEST = 40            # cooks that count: gaskets wear and charcoals change; judgement
READ_EVERY_MIN = 10.0  # readings the model learns from; nearer ones share their error
JUST_LIT_F, LIT_FOR_MIN, WIDE = 200.0, 8.0, 0.75  # a cooler dome under wide open vents: lit so long ago; judgement
Tell = Callable[[int, int], None]  # cooks learned from so far, and how many there are


@dataclass(frozen=True, slots=True)
class Kept:
    """A cooker's profile as it stands now, and the chart in it with all that it rests on."""

    profile: CookerProfile
    chart: Chart


def chart_now(book: Reader, cooker: str, trade: VentChart, base: CookerProfile | None = None) -> Kept:
    """The chart that the finished cooks on a cooker give; nothing is written. base: what a profile file says of it."""
    profile = kept_profile(book.profile(cooker), base and base_of(cooker, base))
    chart = chart_of([cook for _, cook in _finished(book, cooker)], trade, profile.kind)
    return Kept(profile.model_copy(update={"chart": chart.to_profile(seen=finished_on(book, cooker))}), chart)


def bring_up_to_date(logbook: Logbook, cooker: str, trade: VentChart, base: CookerProfile | None = None,
                     tell: Tell = lambda done, of: None, most: int = NEWEST) -> Kept:
    """Chart and learned members out of all finished cooks, kept in the logbook. Raises LogbookError.

    The model learns only from the cooks that are new to it, about two seconds each and `most` of them at once; `tell`
    hears how far it is.
    """
    with logbook.reading() as book:
        kept, cooks = chart_now(book, cooker, trade, base), _finished(book, cooker)
    profile = _learned(kept.profile, cooks, tell, most)
    with logbook.writing() as book:
        book.keep_profile(cooker, profile.model_dump(mode="json", exclude_none=True, exclude_defaults=True))
    return Kept(profile, kept.chart)


# -- the model ----------------------------------------------------------------------------------------------------------


def _finished(book: Reader, cooker: str) -> list[tuple[int, PastCook]]:
    """(number, cook) of the newest finished cooks that hold a dome reading, oldest first."""
    finished = [cook for cook in book.cooks(cooker) if cook.ended_ms is not None][-NEWEST:]
    return [(cook.id, past) for cook in finished if (past := past_cook(book, cook)).readings]


def _learned(profile: CookerProfile, cooks: list[tuple[int, PastCook]], tell: Tell, most: int) -> CookerProfile:
    """The profile after the cooks that the model can follow from lighting on; it goes on from those it knows."""
    usable = [(number, made) for number, cook in cooks if (made := model_cook(cook, profile.kind))]
    numbers, known = [number for number, _ in usable], list((profile.learned or {}).get("from", []))
    still = [number for number in known if number in numbers]
    fresh = usable[len(still):]
    if still != numbers[:len(still)]:  # a cook came in before those the model knows
        if len(usable) > most:
            return profile
        profile, known, fresh = profile.model_copy(update={"learned": None}), [], usable
    for done, (number, cook) in enumerate(fresh[:most]):
        tell(done, len(fresh))
        profile, known = learn_into(profile, cook), [*known, number]
        profile = profile.model_copy(update={"learned": {**(profile.learned or {}), "from": known}})
    return profile


def model_cook(cook: PastCook, kind: str) -> Cook | None:
    """A cook as the thermal model replays it, minutes since lighting; None when that or the vents are not known."""
    from advisor.thermal.known import Reading, VentMove
    from advisor.thermal.learn import Cook

    bottom, top = (cook.stood(vent, cook.readings[0][0]) for vent in ("bottom", "top"))
    lit = _lit(cook, bottom, top)
    if lit is None or not cook.moves:
        return None
    moves = tuple(VentMove(move.at_min - lit, **{move.vent: move.opening}) for move in cook.moves if move.at_min > lit)
    readings = tuple(Reading(minute - lit, dome) for minute, dome in _thinned(cook.readings) if minute >= lit)
    if not readings:
        return None
    return Cook(kind, readings, moves, 1.0 if bottom is None else bottom, 1.0 if top is None else top,
                ambient_f=cook.ambient_f)


def _lit(cook: PastCook, bottom: float | None, top: float | None) -> float | None:
    """The minute of lighting, as told, or by a cool dome under wide open vents."""
    first_min, first_f = cook.readings[0]
    wide = bottom is not None and top is not None and min(bottom, top) >= WIDE
    return cook.lit_min if cook.lit_min is not None else first_min - LIT_FOR_MIN if wide and first_f < JUST_LIT_F else None


def _thinned(readings: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    kept: list[tuple[float, float]] = []
    for reading in readings:
        if not kept or reading[0] - kept[-1][0] >= READ_EVERY_MIN:
            kept.append(reading)
    return kept
