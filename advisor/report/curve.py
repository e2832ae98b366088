"""Figures of one curve of readings: when it was where. Pure functions of (minute, °F) points, oldest first.

Between two readings a straight line is taken; across a gap longer than LONGEST_GAP nothing is known and nothing counts.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise

from advisor.report.story import Point, Points

BAND_F = 15.0         # held: within this many degrees of the target; the band the forecasts use
LONGEST_GAP = 60.0    # minutes; judgement: over an hour a fire can go up and come back unseen

Span = tuple[float, float]


def up_to(points: Points, minute: float) -> Points:
    """The readings up to a minute, that minute included."""
    return points[:bisect_left(points, minute + 1e-9, key=lambda point: point[0])]


def since(points: Points, minute: float) -> Points:
    """The readings from a minute on; a value between two readings begins it."""
    index = bisect_left(points, minute, key=lambda point: point[0])
    between = value_at(points, minute)
    starts = index < len(points) and points[index][0] == minute
    return points[index:] if between is None or starts else ((minute, between), *points[index:])


def value_at(points: Points, minute: float) -> float | None:
    """The curve at a minute; None outside of it and in a gap."""
    index = bisect_left(points, minute, key=lambda point: point[0])
    if index < len(points) and points[index][0] == minute:
        return points[index][1]
    if not 0 < index < len(points) or points[index][0] - points[index - 1][0] > LONGEST_GAP:
        return None
    (t0, f0), (t1, f1) = points[index - 1], points[index]
    return f0 + (f1 - f0) * (minute - t0) / (t1 - t0)


def known_min(points: Points) -> float:
    """Minutes over which the curve is known."""
    return sum(t1 - t0 for (t0, _), (t1, _) in _segments(points))


def spans_between(points: Points, low: float, high: float) -> list[Span]:
    """The spans of time, joined where they touch, in which the curve lies from `low` to `high`."""
    spans: list[Span] = []
    for start, end in filter(None, (_part_between(a, b, low, high) for a, b in _segments(points))):
        if spans and start - spans[-1][1] < 1e-6:
            spans[-1] = (spans[-1][0], end)
        else:
            spans.append((start, end))
    return spans


def band(target_f: float) -> tuple[float, float]:
    """The temperatures that count as held."""
    return target_f - BAND_F, target_f + BAND_F


def reached_min(points: Points, target_f: float) -> float | None:
    """The first minute within the band of the target; None when it never was."""
    low, high = band(target_f)
    read = [minute for minute, value in points if low <= value <= high]
    crossed = [start for start, _ in spans_between(points, low, high)]
    return min(read[:1] + crossed[:1], default=None)


def arrived_min(points: Points, target_f: float) -> float | None:
    """The first minute at the target itself, from either side; the reading nearest to it when it never got there."""
    for (t0, f0), (t1, f1) in _segments(points):
        if min(f0, f1) <= target_f <= max(f0, f1):
            return t0 if f0 == f1 else t0 + (t1 - t0) * (target_f - f0) / (f1 - f0)
    return min(points, key=lambda point: abs(point[1] - target_f), default=(None,))[0]


def share_in_band(points: Points, target_f: float) -> float | None:
    """Share of the known time spent within the band; None when no time is known."""
    known = known_min(points)
    return total(spans_between(points, *band(target_f))) / known if known else None


def longest(spans: Sequence[Span]) -> Span | None:
    """The longest of some spans, the first of equals."""
    return max(spans, key=lambda span: round(span[1] - span[0], 6), default=None)


def total(spans: Sequence[Span]) -> float:
    """Minutes in some spans together."""
    return sum(end - start for start, end in spans)


def worst_over(points: Points, target_f: float) -> Point | None:
    """(minute, degrees above the target) of the highest reading; None when none lies above."""
    top = max(points, key=lambda point: point[1], default=None)
    return (top[0], top[1] - target_f) if top and top[1] > target_f else None


def worst_under(points: Points, target_f: float) -> Point | None:
    """(minute, degrees below the target) of the lowest reading; None when none lies below."""
    bottom = min(points, key=lambda point: point[1], default=None)
    return (bottom[0], target_f - bottom[1]) if bottom and bottom[1] < target_f else None


def swings(points: Points, target_f: float) -> int:
    """How often the curve went from one side of the band right over to the other."""
    low, high = band(target_f)
    sides = [value > high for _, value in points if not low <= value <= high]
    return sum(one != other for one, other in pairwise(sides))


def longest_gap(points: Points) -> Span | None:
    """The longest time between two readings."""
    return longest([(t0, t1) for (t0, _), (t1, _) in pairwise(points)])


def _segments(points: Points) -> Iterator[tuple[Point, Point]]:
    return ((a, b) for a, b in pairwise(points) if 0 < b[0] - a[0] <= LONGEST_GAP)


def _part_between(a: Point, b: Point, low: float, high: float) -> Span | None:
    """The part of a straight line that lies from low to high."""
    (t0, f0), (t1, f1) = a, b
    if f0 == f1:
        return (t0, t1) if low <= f0 <= high else None
    shares = sorted(((low - f0) / (f1 - f0), (high - f0) / (f1 - f0)))
    enters, leaves = max(0.0, shares[0]), min(1.0, shares[1])
    return (t0 + enters * (t1 - t0), t0 + leaves * (t1 - t0)) if enters < leaves else None
