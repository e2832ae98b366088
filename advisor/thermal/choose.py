"""Numbers for a recovery: how long to choke, how many burps, where the top vent goes, when to look again.

The kind of recovery and its limits come from the caller; here a few plans are tried on the ensemble and
compared.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from . import combustion
from .ensemble import Ensemble
from .forecast import BAND_F, Forecast, blurred, summary
from .hold import INCH, hold_opening, humble
from .known import Action
from .paths import follow, turns
from .state import COAL, LIT
from .weighing import quantile, systematic

TRIED_MEMBERS = 32
HORIZON_MIN = 90.0
COST_LID, COST_MOVE, COST_LOST, COST_BELOW = 1.5, 0.5, 60.0, 1.3  # F of mean error each is worth; assumed


@dataclass(frozen=True)
class Limits:
    """What trade rules allow: choke times [min], burps, gap between moves [min], how far one move may go (a
    ratio).
    """

    min_wait_min: float = 5.0
    max_wait_min: float = 30.0
    max_burps: int = 3
    min_gap_min: float = 5.0
    first_burp_min: float = 5.0
    burp_gap_min: float = 10.0
    max_ratio: float = 3.0
    least_top: float = 0.02
    bottom: float = INCH
    look_min: tuple[float, float] = (5.0, 15.0)


@dataclass(frozen=True)
class Choice:
    """A chosen plan with its numbers; choke_min and burps are 0 for a mere move. reopen_at_f: dome when
    reopened.
    """

    actions: tuple[Action, ...]
    choke_min: float
    burps: int
    bottom_after: float
    top_after: float
    look_min: float
    reopen_at_f: float | None
    forecast: Forecast
    if_nothing: Forecast
    expected_error_f: float
    error_if_nothing_f: float
    fire_lost_share: float


@dataclass(frozen=True)
class Tried:
    """One plan tried: its numbers, mean error [F] with penalties, share of fires lost, forecast."""

    actions: tuple[Action, ...]
    choke_min: float
    burps: int
    top: float
    cost: float
    error_f: float
    lost: float
    forecast: Forecast
    reopen_f: float | None


def trial(
    ensemble: Ensemble, plans: list[tuple[list[Action], float, int, float]], horizon_min: float = HORIZON_MIN
):
    """Try plans (actions, choke minutes, burps, top) side by side on members drawn by weight. A list of
    Tried.
    """
    kept = systematic(ensemble.weights, TRIED_MEMBERS)
    one = ensemble.pick(kept, even=True)
    n, count = TRIED_MEMBERS, len(plans)
    side = one.pick(np.tile(np.arange(n), count), even=True)
    columns = [np.arange(k * n, (k + 1) * n) for k in range(count)]
    merged = turns([plan[0] for plan in plans], side.controls.bottom, side.controls.top, columns)
    times, shown, x, _ = follow(side.x, side.fixed, side.controls, merged, horizon_min)
    alive = (x[LIT] > 0.004) & (combustion.aliveness(x[COAL], side.fixed.c.t_out) > 0.05)
    widen = 2.0 if ensemble.contradicted else 1.0
    tried = []
    for plan, own in zip(plans, columns, strict=True):
        paths = blurred(times, shown[:, own], one.anchor_f, widen)
        tried.append(_judged(plan, times, paths, 1.0 - float(alive[own].mean()), one))
    return tried


def _judged(plan, times, paths, lost, one) -> Tried:
    actions, choke, burps, top = plan
    error = paths - one.known.target_f
    size = np.where(error < 0.0, -COST_BELOW * error, error)
    weights = np.gradient(times)[:, None]
    mean = float((size * weights).sum() / (weights.sum() * paths.shape[1]))
    moves = sum(action.bottom is not None or action.top is not None for action in actions)
    cost = mean + COST_LID * burps + COST_MOVE * moves + COST_LOST * lost
    found = summary(times, paths, one.weights, one.known.target_f, BAND_F, one)
    reopen = None
    if choke:
        row = paths[int(np.argmin(np.abs(times - choke)))]
        reopen = quantile(row, one.weights, 0.5)
    return Tried(tuple(actions), choke, burps, top, cost, mean, lost, found, reopen)


def _choked(minutes: float, burps: int, top: float, limits: Limits) -> list[Action]:
    times = [limits.first_burp_min + k * limits.burp_gap_min for k in range(burps)]
    return (
        [Action(0.0, bottom=0.0, top=0.0)]
        + [Action(t, burp=True) for t in times]
        + [Action(minutes, bottom=limits.bottom, top=top)]
    )


def _fitting_burps(minutes: float, limits: Limits) -> int:
    """Burps that end at least two minutes before the vents open again."""
    room = minutes - 2.0 - limits.first_burp_min
    return 0 if room < 0.0 else min(limits.max_burps, 1 + int(room // limits.burp_gap_min))


def choose_choke(ensemble: Ensemble, limits: Limits = Limits(), top_after: float | None = None) -> Choice:
    """How long to keep both vents shut and how often to burp, before going to the holding setting.

    top_after: the opening afterwards; found by holding a little under the target unless given.
    """
    if top_after is None:
        top_after = humble(
            max(hold_opening(ensemble, ensemble.known.target_f - 5.0).likely, limits.least_top)
        )
    waits = [
        w for w in (5.0, 10.0, 15.0, 20.0, 30.0, 40.0) if limits.min_wait_min <= w <= limits.max_wait_min
    ]
    plans = [([], 0.0, 0, 0.0)]
    for wait in waits or [limits.min_wait_min]:
        for burps in sorted({0, _fitting_burps(wait, limits)}):
            plans.append((_choked(wait, burps, top_after, limits), wait, burps, top_after))
    tried = trial(ensemble, plans)
    return _chosen(min(tried[1:], key=lambda t: t.cost), tried[0], limits)


def choose_opening(ensemble: Ensemble, limits: Limits = Limits(), current_top: float | None = None) -> Choice:
    """Where to put the top vent, bottom as it is, in one move; nothing at all when moving gains little."""
    top = float(np.median(ensemble.controls.top)) if current_top is None else current_top
    held = hold_opening(ensemble, bottom=float(np.median(ensemble.controls.bottom))).likely
    aims = {
        humble(value)
        for value in (0.6 * held, 0.8 * held, held, 1.25 * held, 1.6 * held, 0.8 * top, 1.25 * top)
    }
    low, high = max(top / limits.max_ratio, limits.least_top), min(max(top * limits.max_ratio, 0.06), 1.0)
    aims = sorted({min(max(aim, low), high) for aim in aims})
    tried = trial(ensemble, [([], 0.0, 0, top)] + [([Action(0.0, top=aim)], 0.0, 0, aim) for aim in aims])
    best = min(tried[1:], key=lambda t: t.cost)
    return _chosen(best if best.cost < 0.9 * tried[0].cost else tried[0], tried[0], limits)


def choose_lift(ensemble: Ensemble, limits: Limits = Limits()) -> Choice:
    """Bring up a fire that is low: open wide for a while or not at all, then the holding setting."""
    held = humble(max(hold_opening(ensemble).likely, limits.least_top))
    plans = [([], 0.0, 0, 0.0), ([Action(0.0, bottom=limits.bottom, top=held)], 0.0, 0, held)]
    for wide in (5.0, 10.0, 15.0, 25.0):
        for bottom, top in ((0.5, 0.6), (1.0, 1.0)):
            later = Action(max(wide, limits.min_gap_min), bottom=limits.bottom, top=held)
            plans.append(([Action(0.0, bottom=bottom, top=top), later], 0.0, 0, held))
    tried = trial(ensemble, plans)
    return _chosen(min(tried[1:], key=lambda t: t.cost), tried[0], limits)


def _chosen(best: Tried, idle: Tried, limits: Limits) -> Choice:
    likely = best.forecast.likely_min if best.forecast.likely_min is not None else limits.look_min[1]
    look = limits.first_burp_min if best.burps else best.choke_min or 0.6 * likely
    look = float(np.clip(round(look), *limits.look_min))
    bottoms = [action.bottom for action in best.actions if action.bottom is not None]
    return Choice(
        best.actions,
        best.choke_min,
        best.burps,
        bottoms[-1] if bottoms else limits.bottom,
        best.top,
        look,
        best.reopen_f,
        best.forecast,
        idle.forecast,
        best.error_f,
        idle.error_f,
        best.lost,
    )
