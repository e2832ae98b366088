"""How cookers come to where an episode starts: lit, held, let run, choked - in either world."""

import numpy as np
import world  # noqa: F401  puts the repository on the path
from second_world import SecondWorld
from world import World

from advisor.thermal import combustion, state
from advisor.thermal.hold import steer
from advisor.thermal.population import draw_z, from_z, kind_ranges
from advisor.thermal.simulate import advance
from advisor.thermal.state import ASH, COAL, LIT, UNLIT, VOLATILE, Controls, Fixed, Surroundings

INCH = 0.25
TARGETS = (225.0, 250.0, 275.0, 300.0)


class Making:
    """n cookers on their way into trouble. target_f (n,): what each owner wants. Each world fills in the rest."""

    def __init__(self, n: int, wind: tuple[float, float], seed: int) -> None:
        self.rng, self.n = np.random.default_rng(seed), n
        self.target_f = self.rng.choice(TARGETS, n)
        self.wind = self.rng.uniform(*wind, n)
        self.bottom, self.top = np.full(n, 1.0), np.full(n, 1.0)
        self.lit_min, self.moved_ago_min = 0.0, 30.0

    def run(self, minutes: float, bottom=None, top=None, lid_up: bool = False) -> None:
        """Let minutes pass with the vents put so."""
        if bottom is not None or top is not None:
            self.moved_ago_min = 0.0
        self.bottom = self.bottom if bottom is None else np.broadcast_to(np.asarray(bottom, float), (self.n,)).copy()
        self.top = self.top if top is None else np.broadcast_to(np.asarray(top, float), (self.n,)).copy()
        self.passes(minutes, lid_up)
        self.lit_min += minutes
        self.moved_ago_min += minutes

    def run_away(self, minutes: float, factor: float) -> None:
        """Somebody opened up and forgot it."""
        self.run(minutes, None if self.forgets_bottom is None else np.full(self.n, self.forgets_bottom),
                 np.clip(factor * self.top, 0.0, 1.0))

    def light(self) -> None:
        self.run(8, 1.0, 1.0, lid_up=True)

    def hold(self, minutes: float, off_f: float | np.ndarray = 0.0) -> None:
        """Somebody able holds the target (or off_f beside it): the bottom an inch, the top as it has to be."""
        self.top = np.clip(self.top, 0.02, 0.3)
        self.bottom = np.full(self.n, INCH)
        error = self.dial() - self.target_f - off_f
        for _ in range(int(minutes / 2)):
            self.passes(2.0)
            before, error = error, self.dial() - self.target_f - off_f
            self.top = steer(self.top, error, error - before)
        self.lit_min += minutes
        self.moved_ago_min = 20.0

    def cook(self, off_f: float | np.ndarray = 0.0) -> None:
        """From lighting to a soaked cooker on its target."""
        self.light()
        self.run(14, 1.0, 0.8)
        self.hold(130, off_f)


class FirstMaking(Making):
    """Cookers of the thermal model."""

    forgets_bottom = None

    def __init__(self, trouble, n: int, width: float, seed: int, kind: str) -> None:
        super().__init__(n, trouble.wind, seed)
        cookers = from_z(kind, draw_z(kind, n, self.rng, width))
        if trouble.leak != 1.0:
            cookers.leak = kind_ranges(kind)["leak"].high * trouble.leak * np.ones(n)
        self.fixed = Fixed(cookers, Surroundings(ambient=293.15 + self.rng.normal(0.0, 6.0, n)))
        self.x = state.fresh(self.fixed, self.rng.uniform(0.08, 0.2, n), self.rng.uniform(0.55, 0.95, n))

    def dial(self) -> np.ndarray:
        return state.shown_f(self.x, self.fixed)

    def passes(self, minutes: float, lid_up: bool = False) -> None:
        u = Controls(self.bottom, self.top, 0.3 if lid_up else 0.0, self.wind)
        for _ in range(round(minutes * 2)):
            self.x, _ = advance(self.x, self.fixed, u, 30.0)

    def lay_ash(self, share: np.ndarray) -> None:
        self.x[ASH] = share * self.fixed.c.ash_full

    def leave_fuel(self, kg: np.ndarray) -> None:
        self.x[UNLIT] = kg
        self.x[VOLATILE] = kg * self.fixed.driven_off
        self.x[LIT] = np.minimum(self.x[LIT], 0.5 * kg + 0.03)

    def burning(self) -> np.ndarray:
        return (self.x[LIT] > 0.005) & (combustion.aliveness(self.x[COAL], self.fixed.c.t_out) > 0.1)

    def world(self, fits: np.ndarray, gust: float, bias_f: float, seed: int) -> World:
        fixed = Fixed(self.fixed.c.pick(fits), Surroundings(ambient=self.fixed.ambient[fits]))
        return World(self.x[:, fits], fixed, self.bottom[fits].copy(), self.top[fits].copy(), self.wind[fits], gust,
                     np.full(len(fits), bias_f), np.random.default_rng(seed))


class SecondMaking(Making):
    """Cookers of the second world."""

    forgets_bottom = 0.7

    def __init__(self, trouble, n: int, width: float, seed: int, kind: str) -> None:
        super().__init__(n, trouble.wind, seed)
        self.own = SecondWorld.lit(n, trouble.leak, width, self.rng, self.wind)

    def dial(self) -> np.ndarray:
        return self.own.truth()

    def passes(self, minutes: float, lid_up: bool = False) -> None:
        own = self.own
        own.bottom, own.top, own.wind = self.bottom.copy(), self.top.copy(), self.wind
        own.lid_up[:] = lid_up
        for _ in range(round(minutes)):
            own.pass_minute()
        own.lid_up[:] = False

    def lay_ash(self, share: np.ndarray) -> None:
        self.own.ash = share + 0.1

    def leave_fuel(self, kg: np.ndarray) -> None:
        self.own.fuel = 0.5 * kg

    def burning(self) -> np.ndarray:
        return (self.own.fire > 12.0) & (self.own.embers > 0.05)

    def world(self, fits: np.ndarray, gust: float, bias_f: float, seed: int) -> SecondWorld:
        found = self.own.foresee(fits)
        found.gust, found.bias_f, found.rng = gust, np.full(len(fits), bias_f), np.random.default_rng(seed)
        return found


MAKINGS = {"first": FirstMaking, "second": SecondMaking}
