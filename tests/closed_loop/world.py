"""Cookers that are driven minute by minute, each by its own hands: vents, burps, lid, fuel, ash; gusts; a thermometer
that lags, wavers and is read to 5 °F. Hands set a vent a few per cent off what they mean to.
"""

import sys
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from advisor.thermal import combustion, lid, state
from advisor.thermal.paths import burp_now
from advisor.thermal.simulate import advance
from advisor.thermal.state import COAL, LIT, OXYGEN, UNLIT, Controls, Fixed

STEPS_A_MINUTE = 2
NOISE_F, MARK_F = 2.0, 5.0
HAND_ERROR = 0.05   # of an opening's logarithm: how well a hand puts a vent where it means to; assumed
LID_UP_M = 0.3      # of crack while the lid is up


@dataclass
class World:
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
        n = self.fixed.n
        self.lid_up = np.zeros(n, bool) if self.lid_up is None else self.lid_up
        self.log = self.log or {name: np.zeros(n, int) for name in ("moves", "lids", "flashes")}
        self._blow = np.ones(n)

    @property
    def n(self) -> int:
        return self.fixed.n

    def dial(self) -> np.ndarray:
        """What the thermometer shows, unrounded [F] (n,)."""
        return state.shown_f(self.x, self.fixed) + self.bias_f

    def truth(self) -> np.ndarray:
        """What it would show were it not biased [F] (n,)."""
        return state.shown_f(self.x, self.fixed)

    def read(self) -> np.ndarray:
        """What somebody reads off it now [F] (n,)."""
        return np.round((self.dial() + self.rng.normal(0.0, NOISE_F, self.n)) / MARK_F) * MARK_F

    def alive(self) -> np.ndarray:
        """Whether each fire still burns (n,)."""
        glow = combustion.aliveness(self.x[COAL], self.fixed.c.t_out)
        return (self.x[LIT] > 0.004) & (glow > 0.05)

    def pass_minute(self) -> None:
        """One minute goes by, with its gusts."""
        self._blow = np.clip(0.8 * self._blow + 0.2 + self.gust * self.rng.normal(0.0, 1.0, self.n), 0.0, 3.0)
        crack = np.where(self.lid_up, LID_UP_M, 0.0)
        u = Controls(self.bottom.copy(), self.top.copy(), crack if self.lid_up.any() else 0.0, self.wind * self._blow)
        steps = 6 if self.lid_up.any() else STEPS_A_MINUTE
        for _ in range(steps):
            self.x, _ = advance(self.x, self.fixed, u, 60.0 / steps)
        self.minute += 1

    # -- hands ----------------------------------------------------------------------------------------------------

    def set_vent(self, i: int, vent: str, opening: float) -> None:
        """A hand puts a vent; it counts as a move when it goes anywhere."""
        openings = self.bottom if vent == "bottom" else self.top
        if abs(opening - openings[i]) > 0.1 * max(openings[i], 0.02):
            self.log["moves"][i] += 1
            openings[i] = np.clip(opening * np.exp(HAND_ERROR * self.rng.normal()), 0.0, 1.0)

    def lift_lid(self, i: int, slowly: bool = False) -> None:
        """The lid goes up; on a starved fire that is a flashback unless it was cracked open first."""
        self.log["lids"][i] += 1
        starved = bool(lid.flash_danger(self.x[OXYGEN, i], self.x[COAL, i]))
        self.log["flashes"][i] += starved and not slowly
        self.lid_up[i] = True

    def drop_lid(self, i: int) -> None:
        self.lid_up[i] = False

    def burp(self, i: int) -> None:
        """A burp: an inch or two, some seconds, shut."""
        self.log["lids"][i] += 1
        self.log["flashes"][i] += bool(lid.flash_danger(self.x[OXYGEN, i], self.x[COAL, i]))
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
