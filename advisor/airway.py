"""The free way of the air through both vents, and where vents go for a wanted one. Openings 0..1, the way as a logarithm.

Two orifices in series let through what (1/a² + 1/b²)^-½ lets through (handbook relation for orifices in series, see
thermal/draught.py); a bottom slide of a ceramic cooker frees about twice the area of its top vent: common practice, no
published source.
"""

from dataclasses import dataclass
from math import exp, log

SMALLEST_GAP = 0.02     # a top vent shut further than this starves the fire; no move ever goes there
BOTTOM_AREA = 2.0       # free area of the bottom vent, that of the top being 1; see above
LEAK = 0.01             # what a sound gasket lets out, as an opening of the top vent: judgement
LEAKY = 0.08            # what a gasket that is told to leak lets out: judgement
LEAK_IN = 0.6           # of that, what it lets in low down: judgement
LEAST_BOTTOM = 0.03     # a bottom vent that steers is shut no further


@dataclass(frozen=True, slots=True)
class Airway:
    """inch, top_inch: the opening of an inch, bottom and top; leak: what the gasket lets out, as an opening of the top vent."""

    inch: float = 0.25
    top_inch: float = 1.0 / 3.0
    leak: float = LEAK

    def way(self, top: float, bottom: float) -> float:
        """Logarithm of the free way with the vents standing so."""
        return -0.5 * log((top + self.leak) ** -2 + (BOTTOM_AREA * bottom + LEAK_IN * self.leak) ** -2)

    def top_for(self, way: float, bottom: float) -> float:
        """Top opening for this way with the bottom where it stands: SMALLEST_GAP at least, 1 where it can't be had."""
        rest = exp(-2.0 * way) - (BOTTOM_AREA * bottom + LEAK_IN * self.leak) ** -2
        return 1.0 if rest <= 0.0 else min(1.0, max(SMALLEST_GAP, rest ** -0.5 - self.leak))

    def bottom_for(self, way: float, top: float) -> float:
        """Bottom opening for this way with the top where it stands, within LEAST_BOTTOM and 1."""
        rest = exp(-2.0 * way) - (top + self.leak) ** -2
        if rest <= 0.0:
            return 1.0
        return min(1.0, max(LEAST_BOTTOM, (rest ** -0.5 - LEAK_IN * self.leak) / BOTTOM_AREA))

    def placed(self, way: float, bottom: float) -> tuple[float, float]:
        """(top, bottom) for this way: the bottom at `bottom` and the top steers, until it can't; then the bottom does."""
        if way > self.way(1.0, bottom):
            return 1.0, self.bottom_for(way, 1.0)
        if way < self.way(SMALLEST_GAP, bottom):
            return SMALLEST_GAP, self.bottom_for(way, SMALLEST_GAP)
        return self.top_for(way, bottom), bottom
