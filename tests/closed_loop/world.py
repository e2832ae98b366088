"""Cookers that are driven minute by minute, each by its own hands: vents, burps, lid, fuel, ash; gusts; a thermometer
that lags, wavers and is read to 5 °F. Hands set a vent a few per cent off what they mean to.
"""

import sys
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from hands import Hands

from advisor.thermal import combustion, lid, state
from advisor.thermal.paths import burp_now
from advisor.thermal.simulate import advance
from advisor.thermal.state import COAL, LIT, OXYGEN, UNLIT, Controls, Fixed, Surroundings

STEPS_A_MINUTE = 2
CRACKED_IN = 1.5    # inches: as far as a lid is cracked to let air in slowly; the step says one
LID_UP_M = 0.3      # of crack while the lid is up


@dataclass
class World(Hands):
    """n cookers. x, fixed: the model's state; bottom, top: openings (n,); bias_f: how far each dial is off, unknown to all."""

    x: np.ndarray
    fixed: Fixed
    bottom: np.ndarray
    top: np.ndarray
    wind: np.ndarray
    gust: float
    bias_f: np.ndarray
    rng: np.random.Generator
    minute: int = 0
    lid_up: np.ndarray = field(default=None)
    log: dict[str, np.ndarray] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.begin()

    @property
    def n(self) -> int:
        return self.fixed.n

    def dial(self) -> np.ndarray:
        """What the thermometer shows, unrounded [F] (n,)."""
        return state.shown_f(self.x, self.fixed) + self.bias_f

    def truth(self) -> np.ndarray:
        """What it would show were it not biased [F] (n,)."""
        return state.shown_f(self.x, self.fixed)

    def alive(self) -> np.ndarray:
        """Whether each fire still burns (n,)."""
        glow = combustion.aliveness(self.x[COAL], self.fixed.c.t_out)
        return (self.x[LIT] > 0.004) & (glow > 0.05)

    def pass_minute(self) -> None:
        """One minute goes by, with its gusts."""
        self.blow()
        crack = np.where(self.lid_up, LID_UP_M, 0.0)
        u = Controls(self.bottom.copy(), self.top.copy(), crack if self.lid_up.any() else 0.0, self.wind * self.gusts)
        steps = 6 if self.lid_up.any() else STEPS_A_MINUTE
        for _ in range(steps):
            self.x, _ = advance(self.x, self.fixed, u, 60.0 / steps)
        self.minute += 1

    def foresee(self, index: np.ndarray) -> "World":
        """A copy of the cookers at index, with steady wind."""
        fixed = Fixed(self.fixed.c.pick(index), Surroundings(ambient=self.fixed.ambient[index]))
        return World(self.x[:, index], fixed, self.bottom[index].copy(), self.top[index].copy(), self.wind[index], 0.0,
                     self.bias_f[index], self.rng)

    # -- what hands do to it --------------------------------------------------------------------------------------

    def starved(self, i: int) -> bool:
        """Whether air let in at a stroke may flash."""
        return bool(lid.flash_danger(self.x[OXYGEN, i], self.x[COAL, i]))

    def burp(self, i: int, crack_in: float = 1.0) -> None:
        """A burp: cracked an inch, some seconds, shut; lifted further on a starved fire it is a flashback."""
        self.log["lids"][i] += 1
        self.log["flashes"][i] += self.starved(i) and crack_in > CRACKED_IN
        which = np.zeros(self.n, bool)
        which[i] = True
        burp_now(self.x, self.fixed, which)

    def add_fuel(self, i: int, kg: float) -> None:
        added = np.zeros(self.n)
        added[i] = kg
        state.add_fuel(self.x, self.fixed, added)

    def light(self, i: int, kg: float) -> None:
        caught = min(self.x[UNLIT, i], kg)
        total = self.x[LIT, i] + caught
        self.x[COAL, i] = (self.x[LIT, i] * self.x[COAL, i] + caught * 950.0) / max(total, 1e-9)
        self.x[LIT, i], self.x[UNLIT, i] = total, self.x[UNLIT, i] - caught

    def clear_ash(self, i: int) -> None:
        self.x[state.ASH, i] *= 0.1
