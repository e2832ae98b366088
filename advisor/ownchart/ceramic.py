"""How warm the ceramic is, by the readings alone, and how much more fire a cold wall asks for than a hot one.

The wall is one lump that follows the dome (lumped capacity, in any textbook of heat transfer): good to half of the
correction that comes of it, which is how far the correction is trusted.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from advisor.thermal.guess import DOME_H, OUTER_H
from advisor.thermal.population import kind_ranges

NEEDED = ("dome_thickness", "body_thickness", "bowl_thickness", "wall_k", "wall_density", "wall_cp")
OUTSIDE_F = 68.0       # where nothing is known: room temperature
LEAST_EXCESS_F = 50.0  # a dome less above the air outside than this holds nothing
LEAST_SHARE = 0.4      # a hot wall may stand in for most of the fire; it is not believed further than this


@dataclass(frozen=True, slots=True)
class Wall:
    """lag_min: the time constant of the wall; draw: heat into a cold wall over heat through a warm one, less one."""

    lag_min: float
    draw: float

    @classmethod
    def of(cls, kind: str) -> Wall:
        """The ceramic in the middle of a kind, half of it dome, half body with the fire bowl inside:
        tau = d rho cp / (h_in + h_out), draw = h_in / U - 1."""
        dome, body, bowl, k, density, cp = (kind_ranges(kind)[name].value for name in NEEDED)
        thickness = 0.5 * (dome + body + bowl)
        through = 1.0 / (1.0 / DOME_H + thickness / k + 1.0 / OUTER_H)
        return cls(thickness * density * cp / (DOME_H + OUTER_H) / 60.0, DOME_H / through - 1.0)

    def followed(self, readings: tuple[tuple[float, float], ...], start_f: float) -> list[float]:
        """°F of the wall at each reading when it stood at start_f at the first; the dome goes straight in between."""
        warm = [start_f]
        for (before, cooler), (minute, dome) in pairwise(readings):
            span = max(minute - before, 1e-6)
            behind = (dome - cooler) / span * self.lag_min
            warm.append(dome - behind + (warm[-1] - cooler + behind) * exp(-span / self.lag_min))
        return warm

    def extra(self, dome_f: float, wall_f: float, outside_f: float) -> float:
        """Logarithm of the heat the fire must give now over what it must give once the wall is warm."""
        excess = max(dome_f - outside_f, LEAST_EXCESS_F)
        return log(max(LEAST_SHARE, 1.0 + self.draw * (dome_f - wall_f) / excess))
