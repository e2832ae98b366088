"""Cooks of many cookers at once from the physics, as a thermometer would log them: steady ones, and ones that go wrong.

A reading every half minute; gusts, a wavering thermometer, marks, readings that are lost, lids that are opened.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from advisor.thermal import state
from advisor.thermal.hold import steer
from advisor.thermal.population import draw_z, from_z
from advisor.thermal.simulate import advance
from advisor.thermal.state import ASH, UNLIT, VOLATILE, Controls, Fixed, Surroundings

STEP_MIN = 0.5
TARGETS = (225.0, 250.0, 275.0, 300.0, 350.0)
INCH = 0.25             # of the bottom vent
LID_UP_M = 0.3          # of crack while the lid is up
LEFT_ALONE_MIN = 20     # nobody steers so soon after the lid was up
WAVER_F = 1.5           # of a thermometer: judgement
ROUGH_HAND = 0.03       # of an opening: how far a hand misses it: judgement
GUST = 0.1              # of the wind, a minute: judgement


@dataclass
class Cooks:
    """n cooks. minutes (m,); true_f (m, n): the dome; lids: (minute of opening, cooker)."""

    minutes: np.ndarray
    true_f: np.ndarray
    target_f: np.ndarray
    lids: list[tuple[float, int]] = field(default_factory=list)

    def logged(self, i: int, mark_f: float, lost: float, seed: int) -> list[tuple[float, float]]:
        """(minute, °F) as written down for one cook: wavering, rounded to a mark, some of them lost."""
        rng = np.random.default_rng([seed, i])
        shown = self.true_f[:, i] + rng.normal(0.0, WAVER_F, len(self.minutes))
        kept = rng.random(len(self.minutes)) >= lost
        return [(float(at), float(np.round(value / mark_f) * mark_f))
                for at, value in zip(self.minutes[kept], shown[kept], strict=True)]


class Kitchen:
    """n cookers lit, warmed and held, then handed to whoever spoils them."""

    def __init__(self, n: int, seed: int) -> None:
        self.rng = np.random.default_rng(seed)
        cookers = from_z("large", draw_z("large", n, self.rng))
        self.n, self.fixed = n, Fixed(cookers, Surroundings(ambient=293.15 + self.rng.normal(0.0, 6.0, n)))
        self.target_f = self.rng.choice(TARGETS, n)
        self.x = state.fresh(self.fixed, self.rng.uniform(0.08, 0.2, n), self.rng.uniform(0.7, 0.95, n))
        self.wind = self.rng.uniform(0.0, 1.5, n)
        self.bottom, self.top, self.blow = np.ones(n), np.ones(n), np.ones(n)
        self.gust, self.hand = GUST, 0.0
        self.lid_up, self.minute = np.zeros(n, bool), 0.0
        self.seen: list[np.ndarray] = []
        self.lids: list[tuple[float, int]] = []

    def shown(self) -> np.ndarray:
        return state.shown_f(self.x, self.fixed)

    def pass_minute(self, keep: bool = True) -> None:
        self.blow = np.clip(0.8 * self.blow + 0.2 + self.gust * self.rng.normal(0.0, 1.0, self.n), 0.0, 3.0)
        crack = np.where(self.lid_up, LID_UP_M, 0.0) if self.lid_up.any() else 0.0
        steps = 6 if self.lid_up.any() else 2
        for k in range(steps):
            u = Controls(self.bottom, self.top, crack, self.wind * self.blow)
            self.x, _ = advance(self.x, self.fixed, u, 60.0 / steps)
            if keep and (k + 1) % (steps // 2) == 0:
                self.seen.append(self.shown())
        self.minute += 1.0

    def light(self, keep: bool = False) -> None:
        self.lid_up[:] = True
        for _ in range(8):
            self.pass_minute(keep)
        self.lid_up[:] = False

    def hold(self, minutes: int, keep: bool = True, every: int = 2, lids_every: float = 0.0) -> None:
        """Somebody able holds the target, looking every few minutes, lifting the lid now and then for a minute."""
        self.bottom[:] = INCH
        error, opened = self.shown() - self.target_f, np.full(self.n, -LEFT_ALONE_MIN)
        for minute in range(minutes):
            if minute % every == 0:
                before, error = error, self.shown() - self.target_f
                alone = minute - opened < LEFT_ALONE_MIN
                rough = np.exp(self.hand * self.rng.normal(0.0, 1.0, self.n))
                self.top = np.where(alone, self.top, np.clip(steer(self.top, error, error - before) * rough, 0.01, 1.0))
            if lids_every and minute > 20:
                self._lift(self.rng.random(self.n) < 1.0 / lids_every, keep)
                opened = np.where(self.lid_up, minute, opened)
            self.pass_minute(keep)
            self.lid_up[:] = False

    def ready(self) -> None:
        """Lit, warmed up and held for two hours; nothing of it is kept."""
        self.light()
        for _ in range(14):
            self.pass_minute(False)
        self.top = np.clip(self.top, 0.02, 0.3)
        self.hold(130, keep=False)

    def leave(self, minutes: int) -> None:
        for _ in range(minutes):
            self.pass_minute()

    def cooks(self) -> Cooks:
        true_f = np.array(self.seen)
        return Cooks(STEP_MIN * np.arange(1, len(true_f) + 1), true_f, self.target_f, self.lids)

    def _lift(self, which: np.ndarray, keep: bool) -> None:
        self.lid_up = which
        if keep:
            self.lids += [(len(self.seen) * STEP_MIN, int(i)) for i in np.flatnonzero(which)]


def steady(n: int, seed: int, hours: float = 12.0) -> Cooks:
    """Held by somebody who looks every ten minutes and lifts the lid every hour and a half."""
    kitchen = Kitchen(n, seed)
    kitchen.ready()
    kitchen.gust, kitchen.hand = 2.0 * GUST, ROUGH_HAND
    kitchen.hold(round(hours * 60), every=10, lids_every=90.0)
    return kitchen.cooks()


def warming(n: int, seed: int, closes_at_f: float | None) -> Cooks:
    """From lighting with the vents wide. closes_at_f: so far below the target the vents go near where they hold it; None:
    they are forgotten until it is too late."""
    kitchen = Kitchen(n, seed)
    kitchen.light(keep=True)
    for _ in range(150):
        if closes_at_f is not None:
            near = kitchen.shown() > kitchen.target_f - closes_at_f
            kitchen.bottom = np.where(near, INCH, kitchen.bottom)
            kitchen.top = np.where(near & (kitchen.top == 1.0), 0.12, kitchen.top)
        kitchen.pass_minute()
    return kitchen.cooks()


def spoilt(n: int, seed: int, spoil: Callable[[Kitchen], None], after: int = 180) -> Cooks:
    """An hour as it should be, then something happens that nobody sees."""
    kitchen = Kitchen(n, seed)
    kitchen.ready()
    kitchen.hold(60)
    spoil(kitchen)
    kitchen.leave(after)
    return kitchen.cooks()


SPOILT_AT_MIN = 60.0


def vent_left_open(kitchen: Kitchen) -> None:
    kitchen.top = np.clip(kitchen.top * kitchen.rng.uniform(1.25, 2.2, kitchen.n), 0.0, 1.0)


def vents_shut_too_far(kitchen: Kitchen) -> None:
    kitchen.top = np.maximum(kitchen.top * kitchen.rng.uniform(0.3, 0.7, kitchen.n), 0.003)


def ash_in_the_way(kitchen: Kitchen) -> None:
    kitchen.x[ASH] = kitchen.rng.uniform(0.5, 0.9, kitchen.n) * kitchen.fixed.c.ash_full


def fuel_runs_out(kitchen: Kitchen) -> None:
    kitchen.x[UNLIT] = kitchen.rng.uniform(0.02, 0.3, kitchen.n)
    kitchen.x[VOLATILE] = kitchen.x[UNLIT] * kitchen.fixed.driven_off


def wind_gets_up(kitchen: Kitchen) -> None:
    kitchen.wind = kitchen.rng.uniform(2.5, 5.0, kitchen.n)


OVERSHOOTS = {"a vent left open": vent_left_open, "wind gets up": wind_gets_up}
DYING = {"vents shut too far": vents_shut_too_far, "ash in the way": ash_in_the_way, "fuel runs out": fuel_runs_out}
