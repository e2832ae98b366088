"""How fast the dome moves and where it stands on the whole, from readings that a dial rounds to 5 °F. Arithmetic only."""

import math

TREND_WINDOW_MIN = 30.0     # older readings say nothing about where the dome heads now
PACE_MIN = 12.0             # readings within this of the last one make its pace
SHORTEST_GAP_MIN = 1.0      # two readings closer than this differ by noise
STEADY_F_PER_MIN = 0.5      # a move of less than 5 °F, one step of the dial, in 10 minutes can't be told from none
LEVEL_AFTER_MIN = 8.0       # a move shows by then; readings sooner after it don't tell where the dome rests: judgement
LEVEL_SPAN_MIN = 5.0        # readings closer together are one look

Readings = tuple[tuple[float, float], ...]


def pace_of(readings: Readings, now: float, moved_at: float = -math.inf) -> float | None:
    """°F per minute over the last readings, a line of least squares; None when they say nothing about now.

    Counted are the last two and whatever lies within PACE_MIN of the last and after the last move of a vent or the lid
    (at moved_at): a dial shows steps of 5 °F, which make two readings soon after one another say much too much.
    """
    if len(readings) < 2 or now - readings[-1][0] > TREND_WINDOW_MIN:
        return None
    last, before = readings[-1][0], readings[-2][0]
    if not SHORTEST_GAP_MIN <= last - before <= TREND_WINDOW_MIN:
        return None
    since = max(last - PACE_MIN, moved_at - SHORTEST_GAP_MIN)
    used = [(minute - last, dome) for minute, dome in readings if minute >= min(before, since)]
    middle, level = (sum(column) / len(used) for column in zip(*used, strict=True))
    spread = sum((minute - middle) ** 2 for minute, _ in used)
    return round(sum((minute - middle) * (dome - level) for minute, dome in used) / spread, 2)


def trend_of(rate_f_per_min: float) -> str:
    """rising, falling or steady."""
    if abs(rate_f_per_min) < STEADY_F_PER_MIN:
        return "steady"
    return "rising" if rate_f_per_min > 0 else "falling"


def level_of(readings: Readings, now: float, moved_at: float = -math.inf) -> float | None:
    """The mean [°F] of the readings of the last half hour since the last move has shown; None with fewer than two looks."""
    since = max(now - TREND_WINDOW_MIN, moved_at + LEVEL_AFTER_MIN)
    used = [(minute, dome) for minute, dome in readings if minute >= since]
    if len(used) < 2 or used[-1][0] - used[0][0] < LEVEL_SPAN_MIN:
        return None
    return round(sum(dome for _, dome in used) / len(used), 1)
