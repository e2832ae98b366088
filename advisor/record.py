"""What a cook's readings and moves show about its air: stretches between breaks, each told by advisor/response.py.

A stretch ends where the vents are shut and where the fire is changed by something else than its vents; what came before
a break is remembered only as the air that would have held the target then.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from advisor.airway import Airway
from advisor.book import holds, number
from advisor.changes import Move, in_openings
from advisor.facts import Fact
from advisor.pace import pace_of
from advisor.response import TURNED_FADES_MIN, Foretold, Start, foretell
from advisor.situation import Situation

SHUT = 0.02             # a bottom vent open no further gives the fire no air: judgement
TOP_SHUT, KEPT_UP_F = 0.002, 20.0   # nor does a shut top, unless the dome stays so far up: wind and leaks do it; judgement
WIDE = 0.45             # both vents open this far only revive a fire: common practice, no published source
CLOSED_DOWN = 0.5       # of the air's logarithm: vents that stood wide to revive a fire have been closed down; judgement
ONE_MOVE_MIN = 2.0      # vents moved within this of each other are one move: judgement
DIP_MIN = 8.0           # so long after the lid was up the dial says little about the fire: common practice, no published source
YOUNG_MOVE_MIN = 15.0   # a vent moved so shortly before the first word is still being answered: judgement
ANSWERED = 0.3          # of what the chart lets expect, once the vents were left alone for longer: judgement
TOLD_PACE = {"rising": 1.0, "falling": -1.0, "steady": 0.0}   # °F per minute meant by the word: judgement
TOLD_SD, UNSURE_SD = 0.4, 1.5   # °F per minute: judgement
TURNED = Start(pace_sd=UNSURE_SD, level_sd=5.0, fades=TURNED_FADES_MIN)
MUCH_MORE = 0.3         # of the air's logarithm, a third more: judgement
KEPT_OF_PACE = 0.2      # of the pace before the fire was given its air back: judgement
GUSTS = 3.0             # how much more the readings waver in gusts, as a share of their variance: judgement
MOST_READINGS = 40      # of one stretch, the newest: judgement
OTHER_CAUSES = ("fuel_added_ago_min", "stirred_ago_min", "ash_cleared_ago_min")
SURE_SD, FORGETS = 0.15, 0.006  # of the opening's logarithm: hands and weather; what a minute adds


@dataclass(frozen=True, slots=True)
class Stretch:
    """readings: (minute, °F off the target); moves: (minute, change of air); way: the air at its end."""

    since: float
    way: float
    readings: tuple[tuple[float, float], ...] = ()
    moves: tuple[tuple[float, float], ...] = ()
    start: Start = field(default_factory=Start)
    until: float = math.inf

    def told(self, now: float, noise: float) -> Foretold | None:
        """What it foretells at its end, or now; None without a reading."""
        return _foretold(self, min(now, self.until), noise) if self.readings else None


@lru_cache(maxsize=64)
def _foretold(one: Stretch, at: float, noise: float) -> Foretold:
    """Kept, because a turn asks for the same stretch many times: for the plan, its sizes, and every answer supposed."""
    return foretell(one.readings, one.moves, at, one.start, noise)


@dataclass(frozen=True, slots=True)
class Record:
    """before: stretches that ended; now: the one that goes on, None while the vents are shut."""

    before: tuple[Stretch, ...] = ()
    now: Stretch | None = None
    noise: float = 1.0


def recorded(situation: Situation, known: Mapping[str, Fact], target_f: float, airway: Airway, hope: float,
             now: float) -> Record:
    """hope: the pace that the chart lets expect before anything is known."""
    situation = _in_openings(situation, airway)
    stands = _stood(situation, known, airway.inch)
    if stands is None:
        return Record()
    noise = GUSTS if holds(known, "windy") else 1.0
    stretches = _stretches(situation, known, airway, target_f, stands, _first(situation, hope), now)
    going = stretches and stretches[-1].until == math.inf
    return Record(tuple(stretches[:-1] if going else stretches), stretches[-1] if going else None, noise)


def settings_of(situation: Situation, known: Mapping[str, Fact], airway: Airway, now: float) -> list[tuple[float, float]]:
    """(minute, air from then on) of every setting of the vents, oldest first; none when the top is not known.

    The first stands since the first reading, or since the vents were moved as told.
    """
    situation = _in_openings(situation, airway)
    stands = _stood(situation, known, airway.inch)
    if stands is None:
        return []
    top, bottom = stands
    put = [one for one in _put(situation, known, now) if not one[1] is one[2] is None]
    since = min([minute for minute, _ in situation.readings[:1]] + [minute for minute, _, _ in put[:1]], default=now)
    if not put and (moved := number(known, "vents_moved_ago_min")) is not None:
        since = min(since, now - moved)
    settings = [(since, airway.way(top, bottom))]
    for minute, put_top, put_bottom in put:
        top, bottom = top if put_top is None else put_top, bottom if put_bottom is None else put_bottom
        settings.append((minute, airway.way(top, bottom)))
    return settings


def _in_openings(situation: Situation, airway: Airway) -> Situation:
    return replace(situation, moves=tuple(in_openings(move, airway.inch, airway.top_inch) for move in situation.moves))


def _stood(situation: Situation, known: Mapping[str, Fact], inch: float) -> tuple[float, float] | None:
    """(top, bottom) before the first move; a bottom nobody told of is taken to stand at an inch; None: the top unknown.

    From where a vent was put is often not told; then the move counts as none, and the start is unsure (see _first).
    """
    top = next((move.top if move.top_was is None else move.top_was for move in situation.moves if move.top is not None),
               number(known, "top_vent"))
    bottom = next((move.bottom if move.bottom_was is None else move.bottom_was for move in situation.moves
                   if move.bottom is not None), number(known, "bottom_vent"))
    return None if top is None else (top, inch if bottom is None else bottom)


def _first(situation: Situation, hope: float) -> Start:
    """What the words that came with the first reading say of the pace before it."""
    by = situation.readings[0][0] + ONE_MOVE_MIN if situation.readings else math.inf
    rate, trend, moved = (fact if (fact := situation.facts.get(name)) and fact.at_min <= by else None
                          for name in ("rate_f_per_min", "trend", "vents_moved_ago_min"))
    if rate:
        return Start(float(rate.value), TOLD_SD)
    if trend and trend.value in TOLD_PACE:
        said = TOLD_PACE[str(trend.value)]
        return Start(said + ANSWERED * max(0.0, hope * said) * math.copysign(1.0, said), TOLD_SD)
    if moved and float(moved.value) >= YOUNG_MOVE_MIN:
        return Start(ANSWERED * hope)
    return Start(hope, UNSURE_SD if moved else Start().pace_sd)


def _stretches(situation: Situation, known: Mapping[str, Fact], airway: Airway, target_f: float,
               stands: tuple[float, float], start: Start, now: float) -> list[Stretch]:
    readings = _readings(situation, target_f) or _only(known, now)
    top, bottom = stands
    shut = _starved(top, bottom, readings[:1])
    found = [] if shut else [Stretch(-math.inf, airway.way(top, bottom), start=start)]
    for minute, put_top, put_bottom in _put(situation, known, now):
        was, stood_wide = airway.way(top, bottom), min(top, bottom) >= WIDE
        top, bottom = top if put_top is None else put_top, bottom if put_bottom is None else put_bottom
        way, last = airway.way(top, bottom), [reading for reading in readings if reading[0] <= minute]
        was_shut, shut = shut, _starved(top, bottom, last)
        revived = stood_wide and way < was - CLOSED_DOWN and bool(last) and last[-1][1] < 0
        if shut:
            found = _ended(found, minute)
        elif was_shut or revived or put_top is put_bottom is None:
            found = [*_ended(found, minute), Stretch(minute, way, start=_turned(last, minute))]
        else:
            found[-1] = replace(found[-1], moves=(*found[-1].moves, (minute, way - was)), way=way)
    return [replace(one, readings=tuple(r for r in readings if one.since <= r[0] <= one.until)[-MOST_READINGS:]) for one in found]


def _starved(top: float, bottom: float, readings: list[tuple[float, float]]) -> bool:
    """Whether vents that stand so give the fire no air, by the last of the readings."""
    kept_up = bool(readings) and readings[-1][1] >= KEPT_UP_F
    return bottom <= SHUT or top <= TOP_SHUT and not kept_up


def _put(situation: Situation, known: Mapping[str, Fact], now: float) -> list[tuple[float, float | None, float | None]]:
    """(minute, top, bottom) of every change of the air, those made together as one; neither: another cause than the vents."""
    other = [(now - ago, None, None) for name in OTHER_CAUSES if (ago := number(known, name)) is not None]
    put: list[tuple[float, float | None, float | None]] = []
    for move in sorted((m for m in situation.moves if m.top is not None or m.bottom is not None), key=_minute):
        if put and move.at_min - put[-1][0] <= ONE_MOVE_MIN:
            minute, top, bottom = put.pop()
            put.append((minute, top if move.top is None else move.top, bottom if move.bottom is None else move.bottom))
        else:
            put.append((move.at_min, move.top, move.bottom))
    return sorted(put + other, key=lambda one: one[0])


def _minute(move: Move) -> float:
    return move.at_min


def _readings(situation: Situation, target_f: float) -> list[tuple[float, float]]:
    """Off the target; what the dial showed in the dip after the lid was up is left out."""
    lifted = [move.at_min for move in situation.moves if move.lid]
    off = 0.0 if situation.from_target else target_f
    return [(minute, dome - off) for minute, dome in situation.readings
            if not any(0.0 <= minute - up < DIP_MIN for up in lifted)]


def _only(known: Mapping[str, Fact], now: float) -> list[tuple[float, float]]:
    """The one distance that is known when no reading is on record."""
    over = number(known, "over_f")
    return [] if over is None else [(now, over)]


def _ended(found: list[Stretch], minute: float) -> list[Stretch]:
    return [*found[:-1], replace(found[-1], until=minute)] if found and found[-1].until == math.inf else found


def _turned(readings: list[tuple[float, float]], minute: float) -> Start:
    """The start of a stretch whose fire was given its air back, or was changed otherwise."""
    return replace(TURNED, pace=KEPT_OF_PACE * (pace_of(tuple(readings), minute) or 0.0))


def _held_back(one: Stretch, prior: float) -> bool:
    """Whether the fire is below the target with much more air than holds it: then embers hold it back, not the vents."""
    return one.readings[-1][1] < 0.0 and one.way > prior + MUCH_MORE


def held(record: Record, prior: float, prior_sd: float, now: float) -> tuple[float, float]:
    """(air that holds the target, sd of its logarithm): the chart's, joined by precision with what each stretch showed."""
    pairs = [(prior, prior_sd)]
    for one in (*record.before, *([record.now] if record.now else [])):
        if (told := one.told(now, record.noise)) and not _held_back(one, prior):
            age = FORGETS * (now - min(now, one.until))
            pairs.append((one.way + told.change, math.hypot(told.log_sd, SURE_SD, age)))
    weights = [sd ** -2 for _, sd in pairs]
    level = sum(weight * way for weight, (way, _) in zip(weights, pairs, strict=True)) / sum(weights)
    return level, sum(weights) ** -0.5
