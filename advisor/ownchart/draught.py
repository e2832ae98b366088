"""Openings as draught sees them: what always leaks counts as open, and a bottom vent far from an inch as less top vent."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log

from advisor.thermal.hold import INCH
from advisor.thermal.population import kind_ranges

LEAK = 0.03     # opening that gasket and shut cap come to: the model's middle cookers, 0.02-0.04; half as sure
MOST_LOG = 0.7  # a bottom vent that would change the top by more than a factor of two tells too little of it


def level(opening: float) -> float:
    """Logarithm of an opening with the leak counted in: what the flow of air goes by."""
    return log(max(opening, 0.0) + LEAK)


def opening_of(level_: float) -> float:
    """Back to an opening, below 0 when the leak alone would give too much."""
    return exp(level_) - LEAK


@dataclass(frozen=True, slots=True)
class Bottom:
    """The way in of a kind, in full top vents: the slide fully open, and the grate behind it."""

    slide: float
    grate: float
    shape: float

    @classmethod
    def of(cls, kind: str) -> Bottom:
        names = ("bottom_slot", "bottom_travel", "grate_clean", "top_area", "vent_shape")
        slot, travel, grate, top, shape = (kind_ranges(kind)[name].value for name in names)
        return cls(slot * travel / top, grate / top, shape)

    def _resistance(self, bottom: float) -> float:
        """Of slide and grate, one behind the other: orifices in series add as 1 / area squared."""
        return (self.slide * bottom) ** -2 + self.grate ** -2

    def at_an_inch(self, top: float, bottom: float) -> float | None:
        """The top opening that gives the same draught with the bottom an inch open; None when bottom rules the flow."""
        other = self._resistance(bottom) - self._resistance(INCH)
        total = top ** (-2.0 * self.shape) + other
        if total <= 0.0:
            return None
        same = min(1.0, total ** (-0.5 / self.shape))
        return same if abs(log(same / top)) <= MOST_LOG else None
