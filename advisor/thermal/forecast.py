"""When the dome is back near its goal: likely, low and high minutes, for a plan and for leaving
things alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .ensemble import Ensemble, gather
from .hand import Hand
from .known import Action, Deed, Known
from .paths import follow, turns
from .weighing import quantile, systematic

BAND_F = 15.0
STAY_MIN = 5.0
SETTLED_MIN = 10.0  # a dome that is steered is back once it has kept so long; judgement
IDLE_STAY_MIN = 30.0  # one left alone may pass through the band: back only when it keeps so long; judgement
HORIZON_MIN = 120.0
CONFIDENCE = 0.80
LEVEL_SD = 11.0  # F: how far the model's level may be off once its start is forgotten; assumed
PACE_SD = 0.30  # and its pace, as a ratio; assumed
ANCHOR_FADES = 0.6  # share of the newest reading's miss that is forgotten in the end; assumed
FORGET_MIN = 25.0  # over which the start is forgotten


@dataclass(frozen=True)
class Forecast:
    """Minutes until the dome is within band_f of goal_f and stays. None: not within the horizon.

    low and high hold it with `confidence`; `back_share` is the share of the ensemble that gets back at all.
    settles_f: (low, likely, high) of the dome at the horizon; lowest_f: likely lowest reading on the way.
    """

    goal_f: float
    band_f: float
    likely_min: float | None
    low_min: float | None
    high_min: float | None
    confidence: float
    back_share: float
    settles_f: tuple[float, float, float]
    lowest_f: float
    highest_f: float
    effective: float
    contradicted: bool


def _scores(n: int, step: float) -> np.ndarray:
    """Evenly spread standard normal scores (n,), in an order that mixes; step picks the order."""
    u = (np.arange(n) * step + 0.5 / n) % 1.0
    return np.sqrt(2.0) * _erfinv(2.0 * np.clip(u, 0.005, 0.995) - 1.0)


def _erfinv(y: np.ndarray) -> np.ndarray:
    """Inverse error function to 0.2 % (Winitzki's formula, from memory), enough for scores."""
    a = 0.147
    log = np.log1p(-y * y)
    first = 2.0 / (np.pi * a) + 0.5 * log
    return np.sign(y) * np.sqrt(np.sqrt(first * first - log / a) - first)


def blurred(times: np.ndarray, shown: np.ndarray, anchor: np.ndarray, widen: float = 1.0) -> np.ndarray:
    """Paths [F] (t, n) as they will be read: shifted to the newest reading, with the model's own error put
    on.
    """
    n = shown.shape[1]
    forgotten = 1.0 - np.exp(-times / FORGET_MIN)[:, None]
    level = widen * LEVEL_SD * _scores(n, 0.6180339887)
    return shown + anchor * (1.0 - ANCHOR_FADES * forgotten) + level * forgotten


def first_stay(
    times: np.ndarray, paths: np.ndarray, goal_f: float, band_f: float, stay_min: float
) -> np.ndarray:
    """First time [min] (n,) from which a path stays within the band for stay_min; inf when it does not."""
    grid = np.arange(0.0, times[-1] + 1e-9, 1.0)
    index = np.clip(np.searchsorted(times, grid, side="right") - 1, 0, len(times) - 2)
    share = ((grid - times[index]) / (times[index + 1] - times[index]))[:, None]
    even = paths[index] + share * (paths[index + 1] - paths[index])
    inside = np.abs(even - goal_f) <= band_f
    run = np.cumsum(inside, axis=0)
    width = int(stay_min)
    stays = (run[width:] - np.vstack([np.zeros((1, paths.shape[1])), run[: -width - 1]])) >= width + 1
    first = np.where(stays.any(axis=0), stays.argmax(axis=0), np.inf)
    return first.astype(float)


def summary(
    times, paths, w, goal_f, band_f, ensemble: Ensemble, stay_min: float = STAY_MIN
) -> Forecast:
    """A forecast from weighted paths."""
    n = paths.shape[1]
    pace = np.exp(PACE_SD * (2.0 if ensemble.contradicted else 1.0) * _scores(n, 0.7548776662))
    back = first_stay(times, paths, goal_f, band_f, stay_min) * pace
    tail = 0.5 * (1.0 - CONFIDENCE)
    low, likely, high = (_finite(quantile(back, w, share)) for share in (tail, 0.5, 1.0 - tail))
    settles = tuple(quantile(paths[-1], w, share) for share in (tail, 0.5, 1.0 - tail))
    return Forecast(
        goal_f,
        band_f,
        likely,
        low,
        high,
        CONFIDENCE,
        float(w[np.isfinite(back)].sum()),
        settles,
        quantile(paths.min(axis=0), w, 0.5),
        quantile(paths.max(axis=0), w, 0.5),
        ensemble.effective,
        ensemble.contradicted,
    )


def _finite(minutes: float) -> float | None:
    return minutes if np.isfinite(minutes) else None


def compare(
    ensemble: Ensemble,
    plans: list[list[Action]],
    goal_f: float | None = None,
    band_f: float = BAND_F,
    horizon_min: float = HORIZON_MIN,
) -> list[Forecast]:
    """A forecast for each plan, all plans run side by side on the same members."""
    goal = ensemble.known.target_f if goal_f is None else goal_f
    n, count = ensemble.fixed.n, len(plans)
    side = ensemble.pick(np.tile(np.arange(n), count))
    columns = [np.arange(k * n, (k + 1) * n) for k in range(count)]
    plan = turns(plans, side.controls.bottom, side.controls.top, columns)
    times, shown, _, _ = follow(side.x, side.fixed, side.controls, plan, horizon_min)
    widen = 2.0 if ensemble.contradicted else 1.0
    return [
        summary(
            times,
            blurred(times, shown[:, own], ensemble.anchor_f, widen),
            ensemble.weights,
            goal,
            band_f,
            ensemble,
        )
        for own in columns
    ]


def followed(
    ensemble: Ensemble, program: list[Deed], members: int = 32, horizon_min: float = HORIZON_MIN
) -> tuple[Forecast, Forecast]:
    """(forecast when the program is carried out and steered on, forecast for doing nothing)."""
    one = ensemble.pick(systematic(ensemble.weights, members), even=True)
    side = one.pick(np.tile(np.arange(members), 2), even=True)
    hand = Hand(program, np.arange(members), ensemble.known.target_f, 0.8 * one.anchor_f)
    times, shown, _, _ = follow(side.x, side.fixed, side.controls, [], horizon_min, hand=hand)
    widen = 2.0 if ensemble.contradicted else 1.0
    paths = [blurred(times, part, one.anchor_f, widen) for part in (shown[:, :members], shown[:, members:])]
    goal = ensemble.known.target_f
    planned = summary(times, paths[0], one.weights, goal, BAND_F, one, SETTLED_MIN)
    return planned, summary(times, paths[1], one.weights, goal, BAND_F, one, IDLE_STAY_MIN)


def forecast(
    known: Known,
    plan: list[Action],
    learned=None,
    goal_f: float | None = None,
    band_f: float = BAND_F,
    seed: int = 1,
) -> tuple[Forecast, Forecast]:
    """(forecast for the plan, forecast for doing nothing)."""
    ensemble = gather(known, seed=seed, learned=learned)
    planned, idle = compare(ensemble, [plan, []], goal_f, band_f)
    return planned, idle
