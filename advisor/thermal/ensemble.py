"""The weighted ensemble of a cook: started on an early reading, run through the moves since, weighed by the
rest.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ..errors import ValueRefused
from . import guess, state, weighing
from .known import Known
from .paths import follow, turns
from .state import Controls, Fixed

MEMBERS = 96  # carried into the future
STARTED = 128  # run through the readings so far, then resampled by weight
WINDOW_MIN = 60.0  # how far back readings are used
DRAWN = 3  # members drawn for each one kept
REST_SD = 15.0  # F: how far from balance a fire may be whose vents were left alone; assumed
JUST_MIN = 8.0  # vents moved so lately are not taken to be at rest


@dataclass
class Ensemble:
    """Cookers in the state they may be in now (ROWS, n), their vents and wind, weights, and how well it all
    fits.
    """

    known: Known
    fixed: Fixed
    x: np.ndarray
    controls: Controls
    weights: np.ndarray
    effective: float
    contradicted: bool
    anchor_f: np.ndarray

    def pick(self, index: np.ndarray, even: bool = False) -> Ensemble:
        """Members at index; with even, all weigh the same (after resampling by weight)."""
        weather = state.Surroundings(
            self.fixed.ambient[index], self.fixed.weather.humidity, self.fixed.weather.pressure
        )
        fixed = Fixed(self.fixed.c.pick(index), weather)
        u = Controls(self.controls.bottom[index], self.controls.top[index], 0.0, self.controls.wind[index])
        w = np.full(len(index), 1.0) if even else self.weights[index]
        w = w / w.sum()
        return Ensemble(
            self.known, fixed, self.x[:, index], u, w, self.effective, self.contradicted, self.anchor_f[index]
        )


def gather(known: Known, members: int = MEMBERS, seed: int = 1, learned=None) -> Ensemble:
    """Ensemble for what is known. Raises ValueRefused when there is no reading to start from."""
    if not known.readings:
        raise ValueRefused("no dome reading is known", "a forecast starts from one", "read the dome first")
    used = [r for r in known.readings if r.at_min >= -WINDOW_MIN]
    start = used[0] if used else known.readings[-1]
    later = [r for r in used if r.at_min > start.at_min + 0.25]
    begun = STARTED if later else members
    fixed, u, x = _started(known, start, begun, np.random.default_rng(seed), learned)
    span = max(-start.at_min, 0.0)
    moves = [m for m in known.moves if m.at_min >= start.at_min]
    shifted = [replace(m, at_min=m.at_min + span) for m in moves]
    plan = turns([shifted], u.bottom, u.top, [np.arange(begun)])
    times, shown, x, u = follow(x, fixed, u, plan, span, tuple(r.at_min + span for r in later))
    found = _weighed(known, fixed, x, u, times - span, shown, later, start)
    return found if begun == members else found.pick(weighing.systematic(found.weights, members), even=True)


def _started(known, start, members, rng, learned):
    """Members at the start: many are drawn, those near rest are kept (unless the vents had just
    been moved).
    """
    drawn = members * DRAWN
    cookers = guess.cookers(known, drawn, rng, learned)
    fixed = Fixed(cookers, guess.weather(known, drawn, rng))
    bottom, top = _moved(known, *guess.openings(known, drawn, rng), before=start.at_min)
    u = Controls(bottom, top, 0.0, guess.wind(known, drawn, rng))
    x, misfit = guess.states(known, fixed, u, start.at_min, start.dome_f, rng)
    moved = any(start.at_min - JUST_MIN <= m.at_min < start.at_min for m in known.moves)
    at_rest = weighing.log_likelihood(
        misfit[None, :] / 3.0, np.array([REST_SD * (4.0 if moved else 1.0) / 3.0])
    )
    kept = weighing.systematic(weighing.weights(at_rest), members)
    weather = state.Surroundings(fixed.ambient[kept], fixed.weather.humidity, fixed.weather.pressure)
    controls = Controls(bottom[kept], top[kept], 0.0, u.wind[kept])
    return Fixed(cookers.pick(kept), weather), controls, x[:, kept]


def _moved(known, bottom, top, before):
    """Openings before a minute; a vent moved in the very minute of a reading was moved because of it, so after it."""
    for move in known.moves:
        if move.at_min < before:
            bottom = bottom if move.bottom is None else np.full_like(bottom, move.bottom)
            top = top if move.top is None else np.full_like(top, move.top)
    return bottom, top


def _weighed(known, fixed, x, u, times, shown, later, start):
    at = [int(np.argmin(np.abs(times - r.at_min))) for r in later]
    misses = np.array([r.dome_f - shown[i] for r, i in zip(later, at)]).reshape(len(later), fixed.n)
    sd = weighing.deviations(np.array([r.at_min - start.at_min for r in later]))
    contradiction = weighing.contradicted(misses, sd)
    w = weighing.weights(weighing.log_likelihood(misses, sd if not contradiction else 3.0 * sd))
    newest = known.now_f - shown[-1] if known.readings[-1].at_min > -3.0 else np.zeros(fixed.n)
    return Ensemble(known, fixed, x, u, w, weighing.effective_size(w), contradiction, newest)
