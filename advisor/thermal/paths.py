"""Coarse runs for forecasts: many cookers, each column with its own plan, steps that lengthen when nothing
happens. Against steps of 20 s the dial differs by 1 to 4 F at the mean, a third of what the model's level may be off.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from . import lid, state
from .air import OXYGEN_SHARE, R_AIR
from .hand import Hand
from .simulate import advance
from .state import GAS, OXYGEN, Controls, Fixed

# m, s; common practice, no published source: two inches, ten to fifteen seconds
BURP_CRACK, BURP_SECONDS = 0.05, 12.0
# s after a move; then up to three times as long, up to what `_longest` allows
FIRST_STEP = 20.0
AFTER_HAND = 120.0  # s after a small move of the hand; assumed, see above for what it costs
LENGTHS = (300.0, 180.0, 120.0, 60.0, 20.0)  # s: the few lengths there are, as each costs an inversion


@dataclass
class Turn:
    """What all columns do at one moment [min]: openings (n,) from then on, and which burp their lid."""

    at_min: float
    bottom: np.ndarray
    top: np.ndarray
    burp: np.ndarray


def turns(plans: list[list], bottom: np.ndarray, top: np.ndarray, columns: list[np.ndarray]) -> list[Turn]:
    """Merge plans (each a list of moves with at_min, bottom, top, burp) into turns; columns[k] are those of
    plan k.
    """
    times = sorted({round(move.at_min, 2) for plan in plans for move in plan})
    merged = []
    for time in times:
        bottom, top, burp = bottom.copy(), top.copy(), np.zeros(len(top), bool)
        for plan, own in zip(plans, columns, strict=True):
            for move in plan:
                if round(move.at_min, 2) == time:
                    bottom[own] = bottom[own] if move.bottom is None else move.bottom
                    top[own] = top[own] if move.top is None else move.top
                    burp[own] |= move.burp
        merged.append(Turn(time, bottom, top, burp))
    return merged


def burp_now(x: np.ndarray, fixed: Fixed, which: np.ndarray) -> None:
    """Burp the lids of some columns at one stroke. Changes x."""
    rho_in = fixed.weather.pressure / (R_AIR * x[GAS])
    rate = lid.exchange_rate(BURP_CRACK, fixed.c.lid_width, fixed.rho_out, rho_in)
    gas, oxygen = lid.burped(
        x[GAS], x[OXYGEN], fixed.ambient, OXYGEN_SHARE, rate, rho_in * fixed.c.volume, BURP_SECONDS
    )
    x[GAS] = np.where(which, gas, x[GAS])
    x[OXYGEN] = np.where(which, oxygen, x[OXYGEN])


def _longest(quiet_s: float) -> float:
    """Longest step [s] once nothing was moved for quiet_s."""
    return 60.0 if quiet_s < 60.0 else 180.0 if quiet_s < 300.0 else 300.0


def follow(
    x: np.ndarray,
    fixed: Fixed,
    u: Controls,
    plan: list[Turn],
    minutes: float,
    stops_min: tuple = (),
    hand: Hand | None = None,
) -> tuple:
    """(times [min] (t,), shown [F] (t, n), last state, last controls). Every stop falls on a step. x is left
    alone. hand: looks at the dome now and then and moves the vents of its columns.
    """
    x, now, quiet, span = x.copy(), 0.0, 0.0, FIRST_STEP
    plan, end = list(plan), minutes * 60.0
    looks = [look * 60.0 for look in hand.looks_min if look < minutes] if hand else []
    marks = sorted({s * 60.0 for s in stops_min} | {end} | {turn.at_min * 60.0 for turn in plan} | set(looks))
    times, shown = [0.0], [state.shown_f(x, fixed)]
    while True:
        while plan and plan[0].at_min * 60.0 <= now + 1e-6:
            turn, quiet, span = plan.pop(0), 0.0, FIRST_STEP
            u = Controls(turn.bottom, turn.top, 0.0, u.wind)
            if turn.burp.any():
                burp_now(x, fixed, turn.burp)
        while looks and looks[0] <= now + 1e-6:
            looks.pop(0)
            if done := hand.act(now / 60.0, shown[-1], u):
                u, quiet, span = done[0], 0.0, AFTER_HAND
                if done[1].any():
                    burp_now(x, fixed, done[1])
        if now >= end - 1e-6:
            return np.array(times) / 60.0, np.array(shown), x, u
        ahead = next(mark for mark in marks if mark > now + 1e-6) - now
        length = next((one for one in LENGTHS if one <= min(span, ahead) + 1e-6), ahead)
        x, _ = advance(x, fixed, u, length)
        now, quiet = now + length, quiet + length
        span = min(3.0 * span, _longest(quiet))
        times.append(now)
        shown.append(state.shown_f(x, fixed))
