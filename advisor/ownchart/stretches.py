"""The steady stretches of a cook: vents left alone, lid down, dome hardly moving - each says what opening holds what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from advisor.ownchart import draught
from advisor.ownchart.ceramic import OUTSIDE_F, Wall
from advisor.ownchart.pastcook import PastCook
from advisor.thermal.hold import INCH

ANSWERED_MIN = 15.0    # common practice, no published source: a fire answers a move in ten minutes, then it creeps
CLIMB_MIN = 40.0       # common practice, no published source: from lighting to about the dome that was read first
WINDOW_MIN = 30.0      # readings this close together make one stretch
SPAN_MIN = 8.0         # of readings, to tell a slope from a step of the dial
STEADY = 0.6           # °F a minute: a step of the dial (5 °F) in SPAN_MIN can't be told from none
LEAST_TOP, LEAST_BOTTOM = 0.01, 0.05   # vents further shut starve a fire instead of holding it
MARK_F, NOISE_F = 5.0, 2.0  # steps of the dial and what a look at it is off by
BY_HAND = 0.08         # of an opening's logarithm: how far off a vent stands from what was said of it; judgement
ELSE = 0.10            # fire not even, plate and grate still warming: judgement
PER_F = 0.010          # of an opening's logarithm for a degree: between the trade's chart (0.018) and the model (0.005)
UNTOLD_BOTTOM = 0.15   # where nobody said how the bottom stood, an inch is taken, give or take this in the logarithm
HALF = 0.5             # corrections are trusted by half


@dataclass(frozen=True, slots=True)
class Stretch:
    """From start to end the top stood at `top` and the dome showed dome_f, changing by slope °F a minute.

    level: logarithm (leak counted in) of the opening that holds dome_f once the ceramic is warm and the bottom an inch
    open; sd: how far off that may be, apart from what differs from one day to another.
    """

    start_min: float
    end_min: float
    dome_f: float
    slope: float
    top: float
    level: float
    sd: float


def stretches_of(cook: PastCook, kind: str = "large") -> list[Stretch]:
    """The stretches in order; none when the cook never came to rest."""
    wall, bottom = Wall.of(kind), draught.Bottom.of(kind)
    warm = _warm(cook, wall)
    found = []
    for window in _windows(cook):
        made = _stretch(cook, window, warm, wall, bottom)
        if made is not None:
            found.append(made)
    return found


Warm = dict[float, tuple[float, float]]


def _warm(cook: PastCook, wall: Wall) -> Warm:
    """By the minute of a reading, the °F of the wall if it was cold at first and if it was warm by then."""
    if not cook.readings:
        return {}
    first_min, first_f = cook.readings[0]
    outside = _outside(cook)
    lit = []
    if cook.lit_min is not None and cook.lit_min < first_min:
        lit = [(cook.lit_min, outside)]
        if cook.lit_min + CLIMB_MIN < first_min:
            lit.append((cook.lit_min + CLIMB_MIN, first_f))
    path = (*lit, *cook.readings)
    cold = wall.followed(path, outside)
    hot = cold if lit or first_f < outside + 60.0 else wall.followed(path, first_f)
    return {minute: pair for (minute, _), pair in zip(path, zip(cold, hot, strict=True), strict=True)}


def _outside(cook: PastCook) -> float:
    return OUTSIDE_F if cook.ambient_f is None else cook.ambient_f


def _windows(cook: PastCook) -> Iterator[list[tuple[float, float]]]:
    """Readings that belong together: between two disturbances, after the answer to the first, WINDOW_MIN at most."""
    marks = sorted({-inf, *(move.at_min for move in cook.moves), *cook.disturbed, inf})
    for begin, end in pairwise(marks):
        window: list[tuple[float, float]] = []
        for minute, dome in cook.readings:
            if not begin + ANSWERED_MIN <= minute < end:
                continue
            if window and minute - window[0][0] > WINDOW_MIN:
                yield window
                window = []
            window.append((minute, dome))
        if window:
            yield window


def _stretch(cook: PastCook, window: list[tuple[float, float]], warm: Warm, wall: Wall,
             way_in: draught.Bottom) -> Stretch | None:
    start, end = window[0][0], window[-1][0]
    top, bottom = cook.stood("top", start), cook.stood("bottom", start)
    if end - start < SPAN_MIN or top is None or top < LEAST_TOP or bottom is not None and bottom < LEAST_BOTTOM:
        return None
    dome, slope = _line(window)
    same = way_in.at_an_inch(top, INCH if bottom is None else bottom)
    if abs(slope) > STEADY or same is None:
        return None
    moved = draught.level(same) - draught.level(top)
    extras = [wall.extra(dome, sum(warm[minute][k] for minute, _ in window) / len(window), _outside(cook)) for k in (0, 1)]
    extra, unsure = sum(extras) / 2.0, abs(extras[0] - extras[1]) / 2.0
    reading = PER_F * (NOISE_F ** 2 + MARK_F ** 2 / 12.0) ** 0.5 / len(window) ** 0.5
    doubts = (reading, PER_F * abs(slope) * ANSWERED_MIN, BY_HAND, ELSE, HALF * extra, unsure, HALF * moved,
              UNTOLD_BOTTOM if bottom is None else 0.0)
    sd = sum(doubt * doubt for doubt in doubts) ** 0.5
    return Stretch(start, end, dome + slope * ANSWERED_MIN, slope, top, draught.level(same) - extra / way_in.shape, sd)


def _line(window: list[tuple[float, float]]) -> tuple[float, float]:
    """Middle and slope by least squares."""
    n = len(window)
    minute, dome = (sum(column) / n for column in zip(*window, strict=True))
    spread = sum((m - minute) ** 2 for m, _ in window)
    return dome, sum((m - minute) * (d - dome) for m, d in window) / spread
