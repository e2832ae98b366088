"""Isotonic regression: the curve that never falls and lies nearest to given points."""

from __future__ import annotations

from collections.abc import Sequence


def never_falling(values: Sequence[float], weights: Sequence[float] | None = None) -> list[float]:
    """Least weighted squares under y[0] <= y[1] <= ...; pool adjacent violators (Ayer and others 1955, from memory)."""
    blocks: list[list[float]] = []  # mean, weight, how many
    for value, weight in zip(values, weights or [1.0] * len(values), strict=True):
        blocks.append([float(value), float(weight), 1.0])
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            mean, weight, count = blocks.pop()
            before = blocks[-1]
            before[0] = (before[0] * before[1] + mean * weight) / (before[1] + weight)
            before[1], before[2] = before[1] + weight, before[2] + count
    return [mean for mean, _, count in blocks for _ in range(int(count))]
