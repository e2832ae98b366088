"""The cookers of the thermal model as a world to cook on, each on a day of its own: wind, air outside, charcoal and lay of
the fire, ash left over, fill."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np

sys.path[:0] = [str(Path(__file__).resolve().parents[2]), str(Path(__file__).resolve().parent)]

from owners import FLOOR, HAND_SD, INCH, LIGHTING_MIN, cooks_on

from advisor.ownchart.pastcook import PastCook
from advisor.thermal import air, state
from advisor.thermal.population import draw_z, from_z, kind_ranges
from advisor.thermal.simulate import advance
from advisor.thermal.state import Controls, Fixed, Surroundings

OF_THE_BASKET = ("carbon", "ash_share", "moisture", "co_share", "bulk_density", "transfer", "spread", "reach", "exposed",
                 "bypass", "nest")
SAME_BRAND = 0.75     # of the variance of charcoal and lay that stays with the cooker; the rest changes each day; judgement
WINDY, STRONG_M_S = 0.15, 2.5   # share of days with strong wind, and what counts as strong; judgement
STEP_S, STEP_UNDER_AN_OPEN_LID_S = 20.0, 5.0


class Day:
    """n cookers z (parameters, n), each just lit on a day of its own. A World."""

    def __init__(self, z: np.ndarray, seed: int, kind: str = "large", same: float = SAME_BRAND) -> None:
        self.rng, self.n = np.random.default_rng(seed), z.shape[1]
        rng, n = self.rng, self.n
        self.wind = np.where(rng.random(n) < WINDY, rng.uniform(STRONG_M_S, 6.0, n), np.abs(rng.normal(0.0, 1.2, n)))
        ambient = air.kelvin(68.0 + 15.0 * rng.standard_normal(n))
        self.fixed = Fixed(from_z(kind, _laid_anew(z, kind, same, rng)), Surroundings(ambient=ambient))
        self.x = state.fresh(self.fixed, rng.uniform(0.06, 0.25, n), rng.uniform(0.5, 1.0, n))
        self.x[state.ASH] = rng.uniform(0.0, 0.6, n) ** 2 * self.fixed.c.ash_full
        self._blow = np.ones(n)

    def shown(self) -> np.ndarray:
        return state.shown_f(self.x, self.fixed)

    def pass_minute(self, bottom: np.ndarray, top: np.ndarray, lid_up: bool = False) -> None:
        gust = self.rng.normal(0.0, 0.2, self.n)
        self._blow = np.clip(0.8 * self._blow + 0.2 + gust, 0.0, 3.0)
        u = Controls(bottom, top, 0.3 if lid_up else 0.0, self.wind * self._blow)
        step = STEP_UNDER_AN_OPEN_LID_S if lid_up else STEP_S
        for _ in range(int(60.0 / step)):
            self.x, _ = advance(self.x, self.fixed, u, step)


def _laid_anew(z: np.ndarray, kind: str, same: float, rng: np.random.Generator) -> np.ndarray:
    names, z = list(kind_ranges(kind)), z.copy()
    for row in map(names.index, OF_THE_BASKET):
        z[row] = same ** 0.5 * z[row] + (1.0 - same) ** 0.5 * rng.standard_normal(z.shape[1])
    return z


def past_cooks(z: np.ndarray, seed: int, kind: str = "large", same: float = SAME_BRAND) -> list[PastCook]:
    """One cook of each cooker z (parameters, n)."""
    return cooks_on(Day(z, seed, kind, same), np.random.default_rng(seed + 1))


@dataclass
class Soaked:
    """Cookers held at a target (n,) until the ceramic is warm; right: the opening that does it; held: which could."""

    day: Day
    target: np.ndarray
    right: np.ndarray
    held: np.ndarray

    def first_setting(self, opening: np.ndarray, minutes: int = 60) -> np.ndarray:
        """°F that each dial shows off the target an hour after a hand put the top to `opening` (n,). To be called once."""
        top = np.clip(opening * np.exp(HAND_SD * self.day.rng.standard_normal(self.day.n)), 0.0, 1.0)
        for _ in range(minutes):
            self.day.pass_minute(np.full(self.day.n, INCH), top)
        return self.day.shown() - self.target


def soaked(z: np.ndarray, target: np.ndarray, seed: int, kind: str = "large", same: float = SAME_BRAND,
           minutes: int = 180) -> Soaked:
    """Cookers z on a fresh day, steered to target (n,) for three hours by a hand that never rests."""
    day = Day(z, seed, kind, same)
    bottom, top, error, logs = np.ones(day.n), np.full(day.n, 0.5), np.zeros(day.n), []
    for at in range(minutes):
        bottom = np.where(day.shown() > target - 50, INCH, bottom)
        day.pass_minute(bottom, top, at < LIGHTING_MIN)
        before, error = error, day.shown() - target
        steered = np.clip(top * np.exp(-0.0045 * error - 0.02 * (error - before)), FLOOR, 1.0)
        top = np.where(bottom < 1.0, steered, top)
        logs.append(np.log(top))
    return Soaked(day, target, np.exp(np.mean(logs[-30:], axis=0)), np.abs(error) < 10.0)


__all__ = ["Day", "Soaked", "draw_z", "past_cooks", "soaked"]
