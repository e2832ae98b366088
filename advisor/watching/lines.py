"""Straight lines through readings that single bad ones do not bend (Theil 1950, Sen 1968: the median of all slopes)."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import sqrt
from statistics import median

Points = Sequence[tuple[float, float]]   # (minute, °F), by time
MOST_POINTS = 18          # of more, evenly many are taken: 153 slopes say as much as thousands
NORMAL_MAD = 1.4826       # times the median absolute deviation is the standard deviation of a normal spread
LEAST_SPREAD_F = 0.3      # a thermometer that wavers less than this is rounded, not exact


@dataclass(frozen=True, slots=True)
class Line:
    """level_f: at the end of the stretch; slope: °F a minute; spread_f: of the readings about it; doubt: of the slope."""

    level_f: float
    slope: float
    spread_f: float
    doubt: float

    def after(self, minutes: float) -> float:
        return self.level_f + self.slope * minutes


def line_through(points: Points, length_min: float, now: float) -> Line | None:
    """The line through the last `length_min`; None where too little was read in them."""
    used = thinned([point for point in points if point[0] > now - length_min])
    if len(used) < 4 or used[-1][0] - used[0][0] < 0.55 * length_min:
        return None
    slope = median((later[1] - earlier[1]) / (later[0] - earlier[0]) for earlier, later in combinations(used, 2))
    level = median(value + slope * (now - minute) for minute, value in used)
    spread = NORMAL_MAD * median(abs(value + slope * (now - minute) - level) for minute, value in used)
    spread = max(spread, _mark(used) / sqrt(12.0), LEAST_SPREAD_F)
    span = used[-1][0] - used[0][0]
    return Line(level, slope, spread, spread / (span * sqrt(len(used) / 12.0)))


def thinned(points: Points) -> Points:
    if len(points) <= MOST_POINTS:
        return points
    step = (len(points) - 1) / (MOST_POINTS - 1)
    return [points[round(at * step)] for at in range(MOST_POINTS)]


def _mark(points: Points) -> float:
    """The smallest step between readings: what the thermometer rounds to."""
    values = sorted({value for _, value in points})
    return min((high - low for low, high in pairwise(values)), default=0.0)
