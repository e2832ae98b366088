"""Run cookers through time: one small step, a cooker that can be driven, a whole plan of moves."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from . import combustion, gauge, lid, state
from .air import fahrenheit
from .balance import Fluxes, rates
from .population import Cookers
from .state import (
    COAL,
    FAST,
    FOOD_MASS,
    GAS,
    LAYERS,
    LIT,
    OXYGEN,
    UNLIT,
    VOLATILE,
    WALLS,
    WALLS_COUNT,
    Controls,
    Fixed,
    Surroundings,
)

STEP = 20.0  # s; halving it moves the dome by less than 1 F
STARTED_AT = 950.0  # K, charcoal glowing from a starter, within measured peaks of 740-790 C; assumed
SETTLING = 0.5  # s, length of the first step after a move; steps double from there
MASSES = [OXYGEN, LIT, UNLIT, VOLATILE]


def advance(x: np.ndarray, fixed: Fixed, u: Controls, dt: float) -> tuple[np.ndarray, Fluxes]:
    """State after dt [s] and the mean fluxes; the old state is left alone.

    Two-stage exponential Runge-Kutta (ETD2RK, Cox and Matthews 2002): exponential in the fast rows (gas,
    oxygen,
    coals, gauge), Crank-Nicolson in the conduction of the walls, Heun in the rest.
    """
    before, fast, fluxes = rates(x, fixed, u)
    z = np.maximum(fast * dt, 1e-4)
    phi1 = -np.expm1(-z) / z
    inverse = fixed.wall_step(round(dt, 3))
    first = dt * before
    first[FAST] *= phi1
    first[WALLS] = _through(inverse, first[WALLS])
    after, _, fluxes_after = rates(_possible(x + first), fixed, u)
    step = 0.5 * dt * (before + after)
    step[FAST] = first[FAST] + dt * (1.0 - phi1) / z * (after[FAST] - before[FAST] + fast * first[FAST])
    step[WALLS] = _through(inverse, step[WALLS] - first[WALLS]) + first[WALLS]
    mean = Fluxes(*(0.5 * (a + b) for a, b in zip(fluxes, fluxes_after)))
    return _possible(x + step), mean


def _through(inverse: np.ndarray, layers: np.ndarray) -> np.ndarray:
    """Product of (walls, L, L, n) matrices with wall rows (walls L, n)."""
    return (inverse * layers.reshape(WALLS_COUNT, 1, LAYERS, -1)).sum(axis=2).reshape(layers.shape)


def _possible(x: np.ndarray) -> np.ndarray:
    """x with no mass and no oxygen below nothing and gas in 200-1600 K, which a long step may overshoot."""
    x[MASSES] = np.maximum(x[MASSES], 0.0)
    x[GAS] = np.minimum(np.maximum(x[GAS], 200.0), 1600.0)
    return x


@dataclass
class Readings:
    """What can be known of each cooker after a step (n,): the gauge as read, and the truth behind it."""

    gauge_f: np.ndarray
    dome_f: np.ndarray
    core_f: np.ndarray
    lit_kg: np.ndarray
    fuel_kg: np.ndarray
    coal_k: np.ndarray
    oxygen: np.ndarray
    fire_out: np.ndarray
    flash_danger: np.ndarray


class Cooking:
    """Cookers that are driven step by step: reset, step(dt, controls) -> Readings, add fuel, put food on."""

    def __init__(self, cookers: Cookers, weather: Surroundings | None = None, rounding_f: float = 5.0):
        self.fixed = Fixed(cookers, weather or Surroundings())
        self.rounding_f = rounding_f
        self.reset()

    def reset(self, lit: float = 0.06, fuel_share: float = 0.8) -> Readings:
        """A cold cooker, just lit."""
        self.x = state.fresh(self.fixed, lit, fuel_share)
        self.seconds, self._span, self._last = 0.0, SETTLING, None
        return self.readings()

    def step(self, dt: float, controls: Controls) -> Readings:
        """dt [s] later, the controls held; short steps after a change, then steps of STEP."""
        left = dt
        while left > 1e-9:
            longest = STEP if controls is self._last else SETTLING
            span = min(left, longest, 2.0 * self._span)
            self.x, self.fluxes = advance(self.x, self.fixed, controls, span)
            left, self._span, self._last = left - span, span, controls
        self.seconds += dt
        return self.readings()

    def add_fuel(self, kg: float) -> None:
        """Unlit charcoal goes on."""
        state.add_fuel(self.x, self.fixed, kg)

    def put_food_on(self, kg: float) -> None:
        """Cold food goes on; 0 takes it off."""
        state.put_food_on(self.x, kg)

    def light(self, kg: float) -> None:
        """Some of the unlit charcoal is set alight by a starter."""
        caught = np.minimum(self.x[UNLIT], kg)
        total = self.x[LIT] + caught
        self.x[COAL] = (self.x[LIT] * self.x[COAL] + caught * STARTED_AT) / np.maximum(total, 1e-9)
        self.x[LIT], self.x[UNLIT] = total, self.x[UNLIT] - caught

    def clear_ash(self, share: float = 0.9) -> None:
        """Ash is raked from grate and bed."""
        self.x[state.ASH] = (1.0 - share) * self.x[state.ASH]

    def readings(self) -> Readings:
        """What stands now, noise left to the caller."""
        x, f = self.x, self.fixed
        shown = gauge.as_read(fahrenheit(x[state.GAUGE]), f.c.gauge_offset, self.rounding_f)
        alive = combustion.aliveness(x[COAL], f.c.t_out)
        return Readings(
            shown,
            state.dome_f(x),
            state.core_f(x),
            x[LIT],
            x[LIT] + x[UNLIT],
            x[COAL],
            x[OXYGEN],
            (alive < 0.05) | (x[LIT] < 0.004),
            lid.flash_danger(x[OXYGEN], x[COAL]),
        )


@dataclass(frozen=True)
class Move:
    """One change at a time [min]; None leaves a thing as it is. Openings 0..1, crack [m], wind [m/s], masses
    [kg].
    """

    at_min: float
    bottom: float | np.ndarray | None = None
    top: float | np.ndarray | None = None
    crack: float | np.ndarray | None = None
    wind: float | np.ndarray | None = None
    fuel_kg: float | None = None
    food_kg: float | None = None


def burp(at_min: float, crack: float = 0.05, hold_s: float = 10.0) -> list[Move]:
    """Open the lid by crack [m], let the hot air go for hold_s, close it."""
    return [Move(at_min, crack=crack), Move(at_min + hold_s / 60.0, crack=0.0)]


@dataclass
class Run:
    """A run of a plan: times [min] (t,), gauge and dome [F] (t, n), the last state, sums of fluxes [kg, J]
    (n,).
    """

    minutes: np.ndarray
    gauge_f: np.ndarray
    dome_f: np.ndarray
    x: np.ndarray
    totals: Fluxes = field(repr=False)
    fuel_used_kg: np.ndarray = field(repr=False)
    core_f: np.ndarray = field(repr=False)


def _apply(move: Move, x: np.ndarray, fixed: Fixed, u: Controls) -> Controls:
    if move.fuel_kg is not None:
        state.add_fuel(x, fixed, move.fuel_kg)
    if move.food_kg is not None:
        state.put_food_on(x, move.food_kg)
    changes = {name: getattr(move, name) for name in ("bottom", "top", "crack", "wind")}
    return replace(u, **{name: value for name, value in changes.items() if value is not None})


def run(
    x: np.ndarray,
    fixed: Fixed,
    moves: list[Move],
    minutes: float,
    dt: float = STEP,
    u: Controls | None = None,
    every_min: float = 1.0,
) -> Run:
    """Play a plan from state x for some minutes; steps end at the moves, records fall on every_min."""
    x, u, waiting = x.copy(), u or Controls(), sorted(moves, key=lambda move: move.at_min)
    records, totals, now, end = [], 0.0, 0.0, minutes * 60.0
    next_record, longest = 0.0, SETTLING
    while True:
        while waiting and waiting[0].at_min * 60.0 <= now + 1e-6:
            u, longest = _apply(waiting.pop(0), x, fixed, u), SETTLING
        if now >= next_record - 1e-6:
            records.append((now / 60.0, state.shown_f(x, fixed), state.dome_f(x), state.core_f(x)))
            next_record += every_min * 60.0
        if now >= end - 1e-6:
            break
        stops = [now + min(dt, longest), end, next_record] + [move.at_min * 60.0 for move in waiting[:1]]
        span = min(stop for stop in stops if stop > now + 1e-6) - now
        x, fluxes = advance(x, fixed, u, span)
        totals = totals + span * np.stack(np.broadcast_arrays(*fluxes))
        now, longest = now + span, 1.6 * longest
    times, gauges, domes, cores = zip(*records)
    totals = Fluxes(*totals)
    return Run(np.array(times), np.array(gauges), np.array(domes), x, totals, totals.burned, np.array(cores))


__all__ = ["FOOD_MASS", "STEP", "Cooking", "Move", "Readings", "Run", "advance", "burp", "run"]
