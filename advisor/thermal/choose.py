"""Numbers for a recovery, tried on the ensemble: where the vents go, at which dome a choked fire gets its air back and
after how many burps, at which dome vents that stand wide are closed again.

The kind of recovery and its limits come from the caller. Each trial is played on members drawn by weight; what counts is
the expected error of the dome, a degree below for more than one above, and fires that go out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from . import combustion
from .ensemble import Ensemble
from .forecast import blurred
from .paths import follow
from .state import COAL, LIT, Controls
from .weighing import quantile, systematic

MEMBERS = 24            # of the ensemble, in each trial: judgement
LEFT_ALONE_MIN = (5.0, 30.0)    # the error of a setting counts between these minutes: judgement
TURNED_MIN = 45.0       # and that of a choke or a lift up to here: judgement
BELOW = 1.2             # what a degree below counts, one above being 1: judgement, a dying fire is worse than a hot one
LOST_F = 60.0           # °F of mean error that a fire lost is worth: judgement
BURP_F = 1.0            # and a lid lifted: judgement
LOOKS_MIN = 3.0         # how often the trial's hand looks while it waits to turn, in whole steps of `paths`: judgement
BURPS_MIN = (6.0, 15.0, 24.0)   # when burps come after the vents were shut: common practice, wait 5, burp, wait 10


@dataclass(frozen=True)
class Setting:
    """Openings 0..1."""

    bottom: float
    top: float


@dataclass(frozen=True)
class Turn:
    """A recovery in two settings: `first` until the dome is `lead_f` from the target, then `then`; burps in between."""

    first: Setting
    lead_f: float
    then: Setting
    burps: int = 0


@dataclass(frozen=True)
class Tried:
    """error_f: expected, with what burps and lost fires cost; turned_min: likely minutes until the second setting is due,
    None when it likely never is.
    """

    error_f: float
    turned_min: float | None


def left_alone(ensemble: Ensemble, settings: Sequence[Setting]) -> np.ndarray:
    """Expected error [F] (len(settings),) with the vents set so now and not touched again."""
    one, side, columns = _beside(ensemble, len(settings))
    bottom = np.repeat([setting.bottom for setting in settings], MEMBERS)
    top = np.repeat([setting.top for setting in settings], MEMBERS)
    first, last = LEFT_ALONE_MIN
    u = Controls(bottom, top, 0.0, side.controls.wind)
    times, shown, x, _ = follow(side.x, side.fixed, u, [], last)
    alive = _alive(x, side)
    return np.array([_error(times, shown[:, own], one, first) + LOST_F * (1.0 - alive[own].mean()) for own in columns])


def turned(ensemble: Ensemble, plans: Sequence[Turn]) -> list[Tried]:
    """What comes of each of the plans."""
    one, side, columns = _beside(ensemble, len(plans))
    hand = _Turning(plans, ensemble.known.target_f, np.tile(0.8 * one.anchor_f, len(plans)))
    u = Controls(np.repeat([p.first.bottom for p in plans], MEMBERS), np.repeat([p.first.top for p in plans], MEMBERS), 0.0,
                 side.controls.wind)
    times, shown, x, _ = follow(side.x, side.fixed, u, [], TURNED_MIN, hand=hand)
    alive = _alive(x, side)
    tried = []
    for plan, own in zip(plans, columns, strict=True):
        lost = 1.0 - float(alive[own].mean())
        error = _error(times, shown[:, own], one, 0.0) + LOST_F * lost + BURP_F * plan.burps
        turned_min = quantile(hand.turned_min[own], np.full(MEMBERS, 1.0 / MEMBERS), 0.5)
        tried.append(Tried(error, turned_min if np.isfinite(turned_min) else None))
    return tried


def _beside(ensemble: Ensemble, count: int) -> tuple[Ensemble, Ensemble, list[np.ndarray]]:
    """Members drawn by weight, the same `count` times side by side, and the columns of each time."""
    one = ensemble.pick(systematic(ensemble.weights, MEMBERS), even=True)
    side = one.pick(np.tile(np.arange(MEMBERS), count), even=True)
    return one, side, [np.arange(k * MEMBERS, (k + 1) * MEMBERS) for k in range(count)]


def _error(times: np.ndarray, shown: np.ndarray, one: Ensemble, since: float) -> float:
    """Mean error [F] of paths (t, n) as they will be read, from `since` minutes on."""
    counts = times >= since
    off = blurred(times, shown, one.anchor_f, 2.0 if one.contradicted else 1.0)[counts] - one.known.target_f
    weights = np.gradient(times)[counts][:, None]
    return float((np.where(off < 0.0, -BELOW * off, off) * weights).sum() / (weights.sum() * off.shape[1]))


def _alive(x: np.ndarray, side: Ensemble) -> np.ndarray:
    return (x[LIT] > 0.004) & (combustion.aliveness(x[COAL], side.fixed.c.t_out) > 0.05)


class _Turning:
    """A hand for every column: waits until its dome is near enough, then sets the vents once more; burps on the way."""

    def __init__(self, plans: Sequence[Turn], target_f: float, offset_f: np.ndarray) -> None:
        def each(values: list[float]) -> np.ndarray:
            return np.repeat(values, MEMBERS)

        self._due_f = target_f + each([plan.lead_f for plan in plans])
        self._falls = each([plan.lead_f >= 0.0 for plan in plans])
        self._then = each([plan.then.bottom for plan in plans]), each([plan.then.top for plan in plans])
        self._burps, self._offset_f = each([plan.burps for plan in plans]), offset_f
        self.turned_min = np.full(len(offset_f), np.inf)
        self.looks_min = tuple(np.arange(0.0, TURNED_MIN, LOOKS_MIN))

    def act(self, minute: float, shown_f: np.ndarray, u: Controls) -> tuple[Controls, np.ndarray] | None:
        """Controls after a look, and which columns burp; None when nothing is done."""
        reads = shown_f + self._offset_f
        waits = np.isinf(self.turned_min)
        due = waits & np.where(self._falls, reads <= self._due_f, reads >= self._due_f)
        burps = np.zeros(len(reads), bool)
        if minute in BURPS_MIN:
            burps = waits & ~due & (BURPS_MIN.index(minute) < self._burps)
        if not (due.any() or burps.any()):
            return None
        self.turned_min[due] = minute
        bottom, top = (np.where(due, then, now) for then, now in zip(self._then, (u.bottom, u.top), strict=True))
        return Controls(bottom, top, u.crack, u.wind), burps
