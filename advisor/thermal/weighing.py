"""Importance weights of an ensemble: likelihood of readings, effective sample size, weighted quantiles."""

from __future__ import annotations

import numpy as np

READING_SD = 4.0  # F: rounding to 5 F (1.4) and the eye and needle between looks; assumed
# F per root minute: what the model itself gets wrong since its start, as a random walk; assumed
DRIFT_SD = 1.8
HEAVY_TAIL = 4.0  # degrees of freedom of the Student t that stands for the odd reading
# readings count at most as so many independent ones: model error is shared between them
INDEPENDENT = 5.0
# best member's mean miss, in standard deviations, above which the readings contradict all
CONTRADICTED = 3.0
# effective sample size is kept above this share of the ensemble by flattening the weights
LEAST_SHARE = 0.10


def deviations(since_start_min: np.ndarray) -> np.ndarray:
    """Standard deviation [F] of reading minus model at minutes since the ensemble was started on a
    reading.
    """
    return np.sqrt(READING_SD**2 + DRIFT_SD**2 * np.maximum(since_start_min, 0.0))


def log_likelihood(misses: np.ndarray, sd: np.ndarray, independent: float = INDEPENDENT) -> np.ndarray:
    """Student t log-likelihood (n,) of misses (readings, n) with scale sd (readings,), tempered for shared
    error.
    """
    if not len(misses):
        return np.zeros(misses.shape[1])
    each = -0.5 * (HEAVY_TAIL + 1.0) * np.log1p((misses / sd[:, None]) ** 2 / HEAVY_TAIL)
    return each.sum(axis=0) * min(1.0, independent / len(misses))


def contradicted(misses: np.ndarray, sd: np.ndarray) -> bool:
    """True when no member comes near the readings."""
    if not len(misses):
        return False
    return bool(np.sqrt(((misses / sd[:, None]) ** 2).mean(axis=0)).min() > CONTRADICTED)


def effective_size(weights: np.ndarray) -> float:
    """Effective sample size 1 / sum w2 of weights that sum to 1 (Kish). Equal weights: n; one alone: 1."""
    return float(1.0 / (weights * weights).sum())


def weights(log_likelihoods: np.ndarray) -> np.ndarray:
    """Weights (n,) that sum to 1, flattened (log-likelihood times 0.7) until the effective size is large
    enough.
    """
    log = log_likelihoods - log_likelihoods.max()
    for _ in range(40):
        w = np.exp(log)
        w /= w.sum()
        if effective_size(w) >= LEAST_SHARE * len(w):
            break
        log = 0.7 * log
    return w


def quantile(values: np.ndarray, w: np.ndarray, share: float) -> float:
    """Weighted quantile; infinite values are allowed and sort last."""
    order = np.argsort(values, kind="stable")
    reached = np.cumsum(w[order]) - 0.5 * w[order]
    position = int(np.searchsorted(reached, share))
    if position == 0 or position >= len(values):
        return float(values[order[min(position, len(values) - 1)]])
    left, right = values[order[position - 1]], values[order[position]]
    if not np.isfinite(right):
        return float(right)
    gap = reached[position] - reached[position - 1]
    return float(left + (right - left) * (share - reached[position - 1]) / max(gap, 1e-12))


def systematic(w: np.ndarray, count: int) -> np.ndarray:
    """Positions (count,) drawn by systematic resampling, without a random number: evenly spaced through the
    weights.
    """
    return np.searchsorted(np.cumsum(w), (np.arange(count) + 0.5) / count).clip(0, len(w) - 1)
