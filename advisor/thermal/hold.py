"""The top-vent opening that holds a temperature, for the cookers of an ensemble, found by holding it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from . import guess, state
from .ensemble import Ensemble
from .known import Reading
from .simulate import advance
from .state import ASH, LIT, UNLIT, Controls, Fixed
from .weighing import quantile

INCH = 0.25  # an inch of the bottom slide's usual four; common practice, no published source
# s, min, min: assumed; with steps of 120 s the settings come out the same within a few per cent
STEP_S, HOLD_MIN, SETTLE_MIN = 180.0, 60.0, 40.0
WIDEST, NARROWEST = 1.0, 0.004


@dataclass(frozen=True)
class Hold:
    """Top opening that holds target_f: likely, and the range that holds 80 %; held_share of members manage at
    all.
    """

    target_f: float
    bottom: float
    likely: float
    low: float
    high: float
    held_share: float


def steer(top: np.ndarray, error: np.ndarray, change: np.ndarray) -> np.ndarray:
    """Next opening from the error and its change [F]: proportional and integral in the logarithm of the
    opening.
    """
    return np.clip(top * np.exp(-0.045 * error * STEP_S / 600.0 - 0.02 * change), NARROWEST, WIDEST)


def hold_each(fixed: Fixed, x: np.ndarray, target_f: float, wind: np.ndarray, bottom: float) -> tuple:
    """(mean opening over the last part (n,), last reading (n,)) while each cooker is steered to target_f from
    x.
    """
    top, error = np.full(fixed.n, 0.15), state.shown_f(x, fixed) - target_f
    log_sum, count = np.zeros(fixed.n), 0
    for k in range(int(HOLD_MIN * 60.0 / STEP_S)):
        x, _ = advance(x, fixed, Controls(np.full(fixed.n, bottom), top, 0.0, wind), STEP_S)
        before, error = error, state.shown_f(x, fixed) - target_f
        top = steer(top, error, error - before)
        if (k + 1) * STEP_S > SETTLE_MIN * 60.0:
            log_sum, count = log_sum + np.log(top), count + 1
    return np.exp(log_sum / count), error + target_f


def hold_opening(
    ensemble: Ensemble, target_f: float | None = None, bottom: float = INCH, seed: int = 3
) -> Hold:
    """Top opening that holds target_f with the bottom set and left, walls soaked, charcoal and ash as they
    are now.
    """
    target = ensemble.known.target_f if target_f is None else target_f
    n = min(ensemble.fixed.n, 32)
    side = ensemble.pick(np.linspace(0, ensemble.fixed.n - 1, n).astype(int))
    known = replace(ensemble.known, readings=(Reading(0.0, target),), soaked=True, lit_ago_min=None)
    u = Controls(np.full(n, bottom), np.full(n, 0.15), 0.0, side.controls.wind)
    x, _ = guess.states(known, side.fixed, u, 0.0, target, np.random.default_rng(seed))
    x[UNLIT] = np.maximum(side.x[UNLIT] + side.x[LIT] - x[LIT], 0.0)
    x[ASH] = side.x[ASH]
    top, ended = hold_each(side.fixed, x, target, side.controls.wind, bottom)
    held = np.abs(ended - target) < 15.0
    w = side.weights * np.where(held, 1.0, 1e-3)
    w = w / w.sum()
    low, likely, high = (float(quantile(top, w, share)) for share in (0.1, 0.5, 0.9))
    return Hold(target, bottom, likely, low, high, float(side.weights[held].sum()))
