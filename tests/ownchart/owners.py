"""Cooks as owners do them, on any world: they light, shut down in two moves, then correct what is too far off.

A world has n cookers and the ways `shown()` -> °F of each dial (n,) and `pass_minute(bottom, top, lid_up)`.
"""

from __future__ import annotations

from typing import Protocol

import numpy as np

from advisor.ownchart.pastcook import Moved, PastCook

INCH = 0.25           # of a bottom slide of four inches
HAND_SD = 0.05        # of an opening's logarithm: how far off a vent stands from what its owner means
NOISE_F, MARK_F = 2.0, 5.0
TARGETS = (225.0, 250.0, 275.0, 300.0, 325.0, 350.0)
LIGHTING_MIN = 8
FLOOR = 0.02          # no advice shuts a top vent further
GUESS_SD = 0.4        # of the opening's logarithm: what an owner believes of his cooker at first
PER_F = 0.008         # by which he corrects it
LEFT_ALONE_F = 15.0   # an error that he leaves alone


class World(Protocol):
    n: int

    def shown(self) -> np.ndarray: ...

    def pass_minute(self, bottom: np.ndarray, top: np.ndarray, lid_up: bool) -> None: ...


class Owners:
    """n owners, each with a target, a belief, and vents that stand a few per cent off what he means."""

    def __init__(self, target: np.ndarray, rng: np.random.Generator) -> None:
        n = len(target)
        self.rng, self.target, self.stage = rng, target.copy(), np.zeros(n, int)
        self.guess = np.interp(target, [225, 275, 325, 450], [0.08, 0.16, 0.28, 0.6]) * np.exp(rng.normal(0.0, GUESS_SD, n))
        self.look = np.full(n, np.inf)
        self.log: list[list[Moved]] = [[] for _ in range(n)]
        self.means = {"bottom": np.ones(n), "top": np.ones(n)}
        self.stands = {"bottom": np.ones(n), "top": np.ones(n)}
        self.usual = np.clip(INCH * np.exp(rng.normal(0.0, 0.25, n)), 0.1, 0.6)  # where his bottom vent is left

    def put(self, i: int, vent: str, opening: float, at: float) -> None:
        opening = float(np.round(np.clip(opening, FLOOR, 1.0), 2))
        if opening != self.means[vent][i]:
            self.log[i].append(Moved(at, vent, opening, float(self.means[vent][i])))
            self.means[vent][i] = opening
            self.stands[vent][i] = min(1.0, opening * np.exp(HAND_SD * self.rng.normal()))

    def act(self, at: int, reads: np.ndarray) -> None:
        for i, off in enumerate(reads - self.target):
            if self.stage[i] == 0 and off > -50:
                self.put(i, "bottom", self.usual[i], at)
                self.put(i, "top", 1.6 * self.guess[i], at)
                self.stage[i] = 1
            elif self.stage[i] == 1 and off > -20:
                self.put(i, "top", self.guess[i], at)
                self.stage[i], self.look[i] = 2, at + self.rng.uniform(20, 40)
            elif self.stage[i] == 2 and at >= self.look[i]:
                if abs(off) > LEFT_ALONE_F:
                    self.put(i, "top", self.means["top"][i] * np.exp(np.clip(-PER_F * off, -0.7, 0.7)), at)
                self.look[i] = at + self.rng.uniform(25, 60)

    def turn_to(self, i: int, target: float, at: float) -> None:
        """Another temperature is wanted."""
        self.put(i, "top", self.means["top"][i] * np.exp(0.012 * (target - self.target[i])), at)
        self.target[i], self.look[i] = target, at + self.rng.uniform(25, 45)


def read(shown: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """What owners read off their dials [F] (n,)."""
    return np.round((shown + rng.normal(0.0, NOISE_F, len(shown))) / MARK_F) * MARK_F


def cooks_on(world: World, rng: np.random.Generator, hours: float = 5.0,
             every_min: tuple[float, float] = (6.0, 20.0)) -> list[PastCook]:
    """One cook on each cooker of the world as a logbook holds it; four in ten at two temperatures."""
    n = world.n
    owners = Owners(rng.choice(TARGETS, n), rng)
    change, other = np.where(rng.random(n) < 0.4, rng.uniform(120, 200, n), np.inf), rng.choice(TARGETS, n)
    next_look = rng.uniform(5, 15, n)
    readings: list[list[tuple[float, float]]] = [[] for _ in range(n)]
    for at in range(int(hours * 60)):
        world.pass_minute(owners.stands["bottom"].copy(), owners.stands["top"].copy(), at < LIGHTING_MIN)
        seen = read(world.shown(), rng)
        for i in np.flatnonzero((at >= change) & (owners.stage == 2)):
            owners.turn_to(i, other[i], at)
            change[i] = np.inf
        owners.act(at, seen)
        for i in np.flatnonzero(at >= next_look):
            readings[i].append((float(at), float(seen[i])))
            next_look[i] = at + rng.uniform(*every_min)
    return [PastCook(tuple(readings[i]), tuple(owners.log[i]), lit_min=0.0) for i in range(n)]
