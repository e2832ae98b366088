"""From steady stretches to a curve: a Gaussian update of the prior, in which each cook's day shifts all it shows.

Wind, charcoal and ash differ from cook to cook, so the stretches of one cook share an error that no number of them takes
away. How large it is, and how far the doubts about single stretches were right, gets weighed over a grid. Days and
stretches that are unlike all others count for less: their errors have the long tails of Student's t.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from advisor.ownchart.monotone import never_falling
from advisor.ownchart.prior import KNOTS_F, Curve
from advisor.ownchart.stretches import Stretch

DAY_SD = (0.08, 0.12, 0.18, 0.27, 0.4, 0.6)  # of the opening's logarithm, from one cook to another
USUAL_DAY_SD, DAY_SPREAD = 0.14, 0.5          # judgement: a day's opening is off by a fifth, give or take half of that
DOUBT = (0.5, 0.7, 1.0, 1.4)                 # what the doubts about stretches are multiplied by
DOUBT_SPREAD = 0.4                           # judgement: of its logarithm
TAILS = 4.0                                  # degrees of freedom: a usual choice (Lange and others 1989, from memory)
ROUNDS = 5
EIGHTY, EIGHTY_T = 1.2816, 1.5332            # from the middle to either end of 80 %: normal, t with TAILS degrees


@dataclass(frozen=True)
class Learned:
    """Curve after some cooks: levels at KNOTS_F, never falling, and reach (k,), from there to either end of the range
    that holds the right level of a day to come four times out of five; day_sd: that day's own part, as a scale."""

    mean: np.ndarray
    reach: np.ndarray
    day_sd: float

    def band(self) -> tuple[np.ndarray, np.ndarray]:
        """The two ends of the range, never falling."""
        return tuple(np.array(never_falling(list(self.mean + side * self.reach))) for side in (-1.0, 1.0))


@dataclass(frozen=True)
class Seen:
    """Stretches as arrays: design (m, k) over the knots, level (m,), variance (m,), together (m, m): of one cook or not."""

    design: np.ndarray
    level: np.ndarray
    variance: np.ndarray
    together: np.ndarray

    @classmethod
    def of(cls, cooks: Sequence[Sequence[Stretch]]) -> Seen:
        rows = [(stretch, number) for number, cook in enumerate(cooks) for stretch in cook]
        cook = np.array([number for _, number in rows])
        return cls(np.array([weights_of(stretch.dome_f) for stretch, _ in rows]),
                   np.array([stretch.level for stretch, _ in rows]), np.array([stretch.sd ** 2 for stretch, _ in rows]),
                   cook[:, None] == cook[None, :])


@dataclass(frozen=True)
class Fit:
    """Mean (k,), covariance (k, k), logarithm of the evidence, and the size of each stretch's and day's error (m,) squared."""

    mean: np.ndarray
    covariance: np.ndarray
    evidence: float
    stretch: np.ndarray
    day: np.ndarray


def learned(before: Curve, cooks: Sequence[Sequence[Stretch]]) -> Learned:
    """The curve after cooks, each a list of its stretches."""
    if not any(cooks):
        return _by_variance(before.mean, np.diag(before.covariance), USUAL_DAY_SD)
    seen, grid = Seen.of(cooks), list(product(DAY_SD, DOUBT))
    fits = [tailed(before, seen, day, doubt) for day, doubt in grid]
    known = np.array([fit.evidence + _usual(*pair) for fit, pair in zip(fits, grid, strict=True)])
    weights = np.exp(known - known.max())
    weights /= weights.sum()
    mean = sum(w * fit.mean for w, fit in zip(weights, fits, strict=True))
    variance = sum(w * (np.diag(fit.covariance) + (fit.mean - mean) ** 2) for w, fit in zip(weights, fits, strict=True))
    return _by_variance(mean, variance, float(weights @ [day ** 2 for day, _ in grid]) ** 0.5)


def _by_variance(mean: np.ndarray, variance: np.ndarray, day_sd: float) -> Learned:
    reach = np.sqrt(EIGHTY ** 2 * variance + (EIGHTY_T * day_sd) ** 2)
    return Learned(np.array(never_falling(list(mean), list(1.0 / variance))), reach, day_sd)


def tailed(before: Curve, seen: Seen, day_sd: float, doubt: float) -> Fit:
    """The update with long tails, by weights found in turn: an error far out is given a larger variance of its own."""
    variance, day = doubt ** 2 * seen.variance, np.full(len(seen.level), day_sd ** 2)
    stretch_wide, day_wide = np.ones(len(variance)), np.ones(len(variance))
    fit = update(before, seen, variance, day)
    for _ in range(ROUNDS):
        stretch_wide, day_wide = _wider(fit.stretch / variance), _wider(fit.day / day_sd ** 2)
        fit = update(before, seen, variance * stretch_wide, day * day_wide)
    first = np.argmax(seen.together, axis=1) == np.arange(len(seen.level))  # one stretch for each day
    unlikely = _unlikely(stretch_wide).sum() + _unlikely(day_wide[first]).sum()
    return Fit(fit.mean, fit.covariance, fit.evidence - float(unlikely), fit.stretch, fit.day)


def _wider(squared: np.ndarray) -> np.ndarray:
    return (TAILS + squared) / (TAILS + 1.0)


def _unlikely(wide: np.ndarray) -> np.ndarray:
    """What a variance `wide` times the usual costs: the divergence of its inverse gamma from that of TAILS, constants out."""
    return 0.5 * TAILS * (np.log(wide) + 1.0 / wide - 1.0)


def update(before: Curve, seen: Seen, variance: np.ndarray, day: np.ndarray) -> Fit:
    """Gaussian update with the variances of stretches (m,) and of their days (m,)."""
    cross = seen.design @ before.covariance
    spread = cross @ seen.design.T + np.diag(variance) + seen.together * day[:, None]
    off = seen.level - seen.design @ before.mean
    inverse = np.linalg.inv(spread)
    pull = inverse @ off
    stretch = (variance * pull) ** 2 + variance - variance ** 2 * np.diag(inverse)
    of_day = day * (seen.together @ pull)
    sure = day ** 2 * ((seen.together @ inverse) * seen.together).sum(axis=1)
    size = np.linalg.slogdet(2.0 * np.pi * spread)[1]
    return Fit(before.mean + cross.T @ pull, before.covariance - cross.T @ inverse @ cross,
               -0.5 * float(size + off @ pull), stretch, of_day ** 2 + day - sure)


def _usual(day_sd: float, doubt: float) -> float:
    return -0.5 * (np.log(day_sd / USUAL_DAY_SD) / DAY_SPREAD) ** 2 - 0.5 * (np.log(doubt) / DOUBT_SPREAD) ** 2


def weights_of(dome_f: float) -> np.ndarray:
    """How a temperature lies between the knots (k,), summing to 1; the outer knots count beyond them."""
    return np.array([np.interp(dome_f, KNOTS_F, row) for row in np.eye(len(KNOTS_F))])
