"""A cooker's own vent chart made from its past cooks, ready to show and to keep in a profile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

from advisor.ownchart.curve import EIGHTY, learned
from advisor.ownchart.draught import opening_of
from advisor.ownchart.pastcook import PastCook
from advisor.ownchart.prior import KNOTS_F, prior
from advisor.ownchart.stretches import Stretch, stretches_of
from advisor.profile import OwnChart, OwnPoint
from advisor.rulebook.catalogue import VentChart
from advisor.ventchart import SMALLEST_GAP


@dataclass(frozen=True, slots=True)
class Line:
    """The top opening that holds dome_f: likely, and the range that holds it four times out of five on a day to come."""

    dome_f: float
    opening: float
    low: float
    high: float

    @property
    def log_sd(self) -> float:
        """Half the width of the range, as a standard deviation of the opening's logarithm."""
        return max(0.02, log(self.high / self.low) / (2.0 * EIGHTY))


@dataclass(frozen=True, slots=True)
class Chart:
    """lines: ascending in temperature, never falling in opening; stretches: what they rest on, cook by cook.

    day_sd: by how much the right opening changes from one cook to another, of its logarithm.
    """

    lines: tuple[Line, ...]
    stretches: tuple[tuple[Stretch, ...], ...]
    day_sd: float

    @property
    def cooks(self) -> int:
        """Cooks that showed something."""
        return sum(bool(cook) for cook in self.stretches)

    def to_profile(self, seen: int = 0) -> OwnChart:
        """As a profile keeps it. seen: finished cooks there are."""
        points = tuple(OwnPoint(dome_f=line.dome_f, opening=round(line.opening, 4), log_sd=round(line.log_sd, 3))
                       for line in self.lines)
        return OwnChart(points=points, cooks=self.cooks, stretches=sum(map(len, self.stretches)), seen=seen)


def chart_of(cooks: Sequence[PastCook], trade: VentChart, kind: str = "large") -> Chart:
    """The chart that past cooks give; without any, what is believed beforehand."""
    stretches = tuple(tuple(stretches_of(cook, kind)) for cook in cooks)
    found = learned(prior(trade, kind), stretches)
    low, high = found.band()
    lines = tuple(Line(dome, *(_possible(value) for value in values))
                  for dome, *values in zip(KNOTS_F, found.mean, low, high, strict=True))
    return Chart(lines, stretches, found.day_sd)


def _possible(level: float) -> float:
    return min(1.0, max(SMALLEST_GAP, opening_of(float(level))))
