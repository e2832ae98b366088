"""A second, simpler world that shares no formula with the thermal model: the logarithm of the opening is a straight line in
the temperature it holds. Level, slope and drift are each cooker's own; days differ; the dome follows, part fast, part slow.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from owners import HAND_SD, INCH, cooks_on

from advisor.ownchart.pastcook import PastCook

FAST_MIN, SLOW_MIN, FAST_SHARE = 8.0, 50.0, 0.6
WARMING_MIN = 25.0
BOTTOM_POWER = 0.3   # an inch halved asks for so much more top vent: ratio to this power


@dataclass(frozen=True)
class Maps:
    """n cookers: logarithm of the opening at 275 °F, its growth for 100 °F, its growth in an hour as ash gathers."""

    level: np.ndarray
    slope: np.ndarray
    drift: np.ndarray
    day_sd: np.ndarray

    @classmethod
    def drawn(cls, n: int, rng: np.random.Generator) -> Maps:
        return cls(np.log(0.15) + 0.6 * rng.standard_normal(n), np.clip(rng.normal(1.3, 0.4, n), 0.5, 2.6),
                   rng.uniform(0.0, 0.05, n), rng.uniform(0.05, 0.2, n))


class PlainDay:
    """The cookers on one day each. A World."""

    def __init__(self, maps: Maps, seed: int) -> None:
        rng = np.random.default_rng(seed)
        self.maps, self.n = maps, len(maps.level)
        self.shift = maps.day_sd * rng.standard_t(5.0, self.n)
        self.minute, self.fast, self.slow = 0, np.full(self.n, 68.0), np.full(self.n, 68.0)

    def right(self, target: np.ndarray) -> np.ndarray:
        """The opening that holds target (n,) at an inch of bottom vent."""
        maps = self.maps
        return np.exp(maps.level + self.shift + maps.slope * (target - 275.0) / 100.0 + maps.drift * self.minute / 60.0)

    def shown(self) -> np.ndarray:
        return FAST_SHARE * self.fast + (1.0 - FAST_SHARE) * self.slow

    def pass_minute(self, bottom: np.ndarray, top: np.ndarray, lid_up: bool = False) -> None:
        at_an_inch = np.log(top) + BOTTOM_POWER * np.log(bottom / INCH)
        base = np.log(self.right(np.full(self.n, 275.0)))
        rest = np.clip(275.0 + 100.0 * (at_an_inch - base) / self.maps.slope, 68.0, 750.0)
        rest = 68.0 + (rest - 68.0) * (1.0 - np.exp(-self.minute / WARMING_MIN))
        self.fast += (rest - self.fast) / FAST_MIN
        self.slow += (rest - self.slow) / SLOW_MIN
        self.minute += 1


def past_cooks(maps: Maps, seed: int) -> list[PastCook]:
    """One cook of each cooker."""
    return cooks_on(PlainDay(maps, seed), np.random.default_rng(seed + 1))


@dataclass
class Soaked:
    """Cookers at rest at a target (n,) two hours into a fresh day; right: the opening that holds it."""

    day: PlainDay
    target: np.ndarray
    right: np.ndarray
    held: np.ndarray

    def first_setting(self, opening: np.ndarray, minutes: int = 60) -> np.ndarray:
        """°F off the target an hour after the top was put to `opening` (n,). To be called once."""
        rng = np.random.default_rng(self.day.minute + 17)
        top = np.clip(opening * np.exp(HAND_SD * rng.standard_normal(self.day.n)), 1e-3, 1.0)
        for _ in range(minutes):
            self.day.pass_minute(np.full(self.day.n, INCH), top)
        return self.day.shown() - self.target


def soaked(maps: Maps, target: np.ndarray, seed: int) -> Soaked:
    day = PlainDay(maps, seed)
    day.minute, day.fast, day.slow = 120, target.copy(), target.copy()
    right = day.right(target)
    return Soaked(day, target, right, (right > 0.02) & (right < 1.0))
