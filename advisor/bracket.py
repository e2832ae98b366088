"""Bounds for the air that holds the target, from where each setting of this cook led.

A setting under which the dome climbs on above its target gives too much air, one under which it sinks on below gives too
little; what holds lies between. No model is in it, so nothing about a cooker can be wrong in it.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import inf

from advisor.record import Record, Stretch

SHOWS_MIN = 3.0     # from so long after a move on its readings tell of the new setting: judgement, a dial's lag and a fire's
SPAN_MIN = 4.0      # two readings nearer together tell no pace: judgement
CLEAR_F, CLEAR_PACE = 5.0, 0.7      # °F beyond the target and °F/min away from it that are no wavering: judgement
LASTS_MIN = 60.0    # a fire burns down and walls soak: what was shown longer ago bounds nothing; judgement
WITHIN = 0.35       # of the air's logarithm, by how much what holds lies inside a bound: judgement, a third less air
MOST_ABOVE = 1.0    # too little with so much more air than expected is ash, embers or charcoal, not the vents: judgement


@dataclass(frozen=True, slots=True)
class Bracket:
    """least, most: bounds of the air (logarithm) that holds the target; infinite where nothing was shown."""

    least: float = -inf
    most: float = inf

    def within(self, level: float) -> float:
        """`level` brought inside the bounds, in the middle where they are close."""
        least, most = self.least + WITHIN, self.most - WITHIN
        if least > most:
            return 0.5 * (least + most)
        return max(least, min(most, level))


def bracket(record: Record, expected: float, now: float) -> Bracket:
    """What the settings of this cook bound. expected: the air that chart and readings let expect. The newest word wins."""
    least, most = -inf, inf
    for one in (*record.before, *([record.now] if record.now else [])):
        for way, off, pace in _shown(one, now):
            if off >= CLEAR_F and pace >= CLEAR_PACE:
                most, least = min(most, way), least if least < way else -inf
            elif off <= -CLEAR_F and pace <= -CLEAR_PACE and way <= expected + MOST_ABOVE:
                least, most = max(least, way), most if most > way else inf
    return Bracket(least, most)


def _shown(one: Stretch, now: float) -> list[tuple[float, float, float]]:
    """(air, °F off the target at the end, °F per minute) of each setting that stood long enough to show."""
    shown = []
    for (since, way), (until, _) in pairwise([*_settings(one), (min(one.until, now), 0.0)]):
        readings = [reading for reading in one.readings if since + SHOWS_MIN <= reading[0] <= until]
        if len(readings) > 1 and now - until <= LASTS_MIN and readings[-1][0] - readings[0][0] >= SPAN_MIN:
            (began, first), (ended, last) = readings[0], readings[-1]
            shown.append((way, last, (last - first) / (ended - began)))
    return shown


def _settings(one: Stretch) -> list[tuple[float, float]]:
    """(minute, air from then on) of a stretch, oldest first."""
    way = one.way - sum(change for _, change in one.moves)
    settings = [(one.since, way)]
    for minute, change in one.moves:
        way += change
        settings.append((minute, way))
    return settings
