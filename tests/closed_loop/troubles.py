"""Kinds of trouble: how cookers come into it, and what their owner says about it at first."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import world  # noqa: F401  puts the repository on the path
from world import World

from advisor.thermal import state
from advisor.thermal.hold import steer
from advisor.thermal.population import draw_z, from_z, kind_ranges
from advisor.thermal.simulate import advance
from advisor.thermal.state import ASH, COAL, LIT, UNLIT, VOLATILE, Controls, Fixed, Surroundings

INCH = 0.25
TARGETS = (225.0, 250.0, 275.0, 300.0)


@dataclass(frozen=True)
class Trouble:
    """prepare(making) brings a making into trouble; over: range of degrees off the target that counts as that trouble;
    says: what the owner tells besides dome, target and vents; knows: what he can answer when asked.
    """

    name: str
    prepare: Callable[["Making"], None]
    over: tuple[float, float]
    says: str = ""
    knows: dict = None
    leak: float = 1.0
    wind: tuple[float, float] = (0.0, 1.5)
    gust: float = 0.1
    bias_f: float = 0.0


class Making:
    """n cookers on their way into trouble. target_f (n,): what each owner wants."""

    def __init__(self, trouble: Trouble, n: int, width: float, seed: int, kind: str):
        self.rng = np.random.default_rng(seed)
        z = draw_z(kind, n, self.rng, width)
        cookers = from_z(kind, z)
        if trouble.leak != 1.0:
            cookers.leak = kind_ranges(kind)["leak"].high * trouble.leak * np.ones(n)
        self.fixed = Fixed(cookers, Surroundings(ambient=293.15 + self.rng.normal(0.0, 6.0, n)))
        self.target_f = self.rng.choice(TARGETS, n)
        self.x = state.fresh(self.fixed, self.rng.uniform(0.08, 0.2, n), self.rng.uniform(0.55, 0.95, n))
        self.wind = self.rng.uniform(*trouble.wind, n)
        self.bottom, self.top = np.full(n, 1.0), np.full(n, 1.0)
        self.lit_min, self.moved_ago_min = 0.0, 30.0

    @property
    def n(self) -> int:
        return self.fixed.n

    def dial(self) -> np.ndarray:
        return state.shown_f(self.x, self.fixed)

    def run(self, minutes: float, bottom=None, top=None, crack: float = 0.0) -> None:
        """Let minutes pass with the vents put so."""
        if bottom is not None or top is not None:
            self.moved_ago_min = 0.0
        self.bottom = self.bottom if bottom is None else np.broadcast_to(np.asarray(bottom, float), (self.n,)).copy()
        self.top = self.top if top is None else np.broadcast_to(np.asarray(top, float), (self.n,)).copy()
        u = Controls(self.bottom, self.top, crack, self.wind)
        for _ in range(round(minutes * 2)):
            self.x, _ = advance(self.x, self.fixed, u, 30.0)
        self.lit_min += minutes
        self.moved_ago_min += minutes

    def light(self) -> None:
        self.run(8, 1.0, 1.0, crack=0.3)

    def hold(self, minutes: float, off_f: float | np.ndarray = 0.0) -> None:
        """Somebody able holds the target (or off_f beside it): the bottom an inch, the top as it has to be."""
        self.top = np.clip(self.top, 0.02, 0.3)
        self.bottom = np.full(self.n, INCH)
        error = self.dial() - self.target_f - off_f
        for _ in range(int(minutes / 2)):
            u = Controls(self.bottom, self.top, 0.0, self.wind)
            self.x, _ = advance(self.x, self.fixed, u, 60.0)
            self.x, _ = advance(self.x, self.fixed, u, 60.0)
            before, error = error, self.dial() - self.target_f - off_f
            self.top = steer(self.top, error, error - before)
        self.lit_min += minutes
        self.moved_ago_min = 20.0

    def cook(self, off_f: float | np.ndarray = 0.0) -> None:
        """From lighting to a soaked cooker on its target."""
        self.light()
        self.run(14, 1.0, 0.8)
        self.hold(130, off_f)


def cold_overshoot(m: Making) -> None:
    m.light()
    m.run(m.rng.uniform(16, 24), 1.0, 1.0)


def soaked_overshoot(factor: float, minutes: float) -> Callable[[Making], None]:
    def prepare(m: Making) -> None:
        m.cook()
        m.run(minutes, None, np.clip(factor * m.top, 0.0, 1.0))
    return prepare


def small_error(m: Making) -> None:
    m.cook(m.rng.choice([-18.0, -14.0, 14.0, 18.0], m.n))


def chased(m: Making) -> None:
    m.cook()
    held = m.top.copy()
    for k in range(10):
        m.run(3, None, np.clip(held * (2.8 if k % 2 else 0.5), 0.0, 1.0))


def ash_clogged(m: Making) -> None:
    m.cook()
    m.x[ASH] = m.rng.uniform(0.5, 0.85, m.n) * m.fixed.c.ash_full
    m.run(35)


def low_fuel(m: Making) -> None:
    m.cook()
    m.x[UNLIT] = m.rng.uniform(0.1, 0.35, m.n)
    m.x[VOLATILE] = m.x[UNLIT] * m.fixed.driven_off
    m.run(25)


def shut_in(minutes: float) -> Callable[[Making], None]:
    def prepare(m: Making) -> None:
        m.cook()
        m.run(minutes, 0.0, 0.0)
    return prepare


def tight(m: Making) -> None:
    m.cook()
    m.run(35, None, np.maximum(0.45 * m.top, 0.02))


def windy(m: Making) -> None:
    m.cook()
    m.wind = m.rng.uniform(4.0, 7.0, m.n)
    m.run(15)


def lid_closed(m: Making) -> None:
    m.cook()
    m.run(3, crack=0.3)
    m.run(1)
    m.moved_ago_min = 20.0


TROUBLES = [
    Trouble("overshoot, cold walls", cold_overshoot, (60, 200), "lit it {lit} minutes ago"),
    Trouble("overshoot, soaked walls", soaked_overshoot(4.0, 30), (70, 180), "been cooking {hours} hours"),
    Trouble("well over, soaked walls", soaked_overshoot(1.9, 22), (25, 70), "been cooking {hours} hours"),
    Trouble("leaky gasket", soaked_overshoot(3.0, 25), (40, 180), "smoke leaks out all round the lid", {"gasket_leaks": True},
            leak=1.6),
    Trouble("small steady error", small_error, (-24, 24), "been steady there for half an hour"),
    Trouble("chasing", chased, (-90, 90), "it swings and i move the vents every 3 minutes"),
    Trouble("ash-clogged", ash_clogged, (-130, -25), "it keeps sinking, lit it {hours} hours ago", {"ash": "heavy"}),
    Trouble("low fuel", low_fuel, (-150, -25), "it keeps sinking", {"fuel_level": 0.08}),
    Trouble("vents shut in", shut_in(22), (-110, -25), "both vents shut 22 minutes ago"),
    Trouble("nearly out after choking", shut_in(42), (-170, -50), "both vents shut for 42 minutes"),
    Trouble("vents too tight", tight, (-100, -25), "been cooking {hours} hours"),
    Trouble("gusty wind", windy, (20, 150), "windy, gusts", {"windy": True}, wind=(0.5, 2.0), gust=0.35),
    Trouble("lid just closed", lid_closed, (-200, -15), "just closed the lid after putting food on, it was on target before"),
    Trouble("biased thermometer", soaked_overshoot(2.2, 25), (25, 120), "been cooking {hours} hours", bias_f=-18.0),
]


def start(trouble: Trouble, count: int, width: float, seed: int, kind: str = "large") -> tuple[World, "Making"]:
    """`count` cookers in that trouble: of those made, the ones whose dome is off as far as the trouble says."""
    making = Making(trouble, 8 * count, width, seed, kind)
    trouble.prepare(making)
    over = making.dial() - making.target_f
    low, high = trouble.over
    burning = (making.x[LIT] > 0.01) & (making.x[COAL] > making.fixed.c.t_out)
    fits = np.flatnonzero(burning & (over >= low) & (over <= high) & (np.abs(over) > 9.0))[:count]
    making.target_f, c = making.target_f[fits], making.fixed.c.pick(fits)
    fixed = Fixed(c, Surroundings(ambient=making.fixed.ambient[fits]))
    found = World(making.x[:, fits], fixed, making.bottom[fits].copy(), making.top[fits].copy(), making.wind[fits],
                  trouble.gust, np.full(len(fits), trouble.bias_f), np.random.default_rng(seed + 1))
    return found, making
