"""Kinds of cookers read from their files, and plausible cookers drawn from the ranges stated there.

A cooker is a column: every parameter is an array (n,). Draws are made in standard normal units (z), the one
space in which learning, too, describes a cooker.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from ..errors import ProfileError

FOLDER = Path(__file__).parent / "cookers"
NINE_IN_TEN = 1.645  # standard deviations from the middle to the ends of a stated range
FURTHEST = 2.6  # draws stop here


@dataclass(frozen=True)
class Range:
    """One parameter: middle, range that holds nine in ten, unit, shape of the spread, source."""

    value: float
    low: float
    high: float
    unit: str
    shape: str
    source: str

    def at(self, z):
        """The figure at z standard deviations; each side of the middle has its own width. Shares stay below
        1.
        """
        z = np.asarray(z, float) / NINE_IN_TEN
        if self.shape == "log":
            drawn = self.value * np.where(z < 0, self.value / self.low, self.high / self.value) ** z
            is_share = self.unit in ("1", "kg/kg") and self.high < 1.0
            return np.minimum(drawn, 0.5 * (1.0 + self.high)) if is_share else drawn
        return self.value + z * np.where(z < 0, self.value - self.low, self.high - self.value)


class Cookers:
    """n cookers: each parameter an attribute, an array (n,); deflector_in is 1 or 0 for each."""

    def __init__(self, figures: dict[str, np.ndarray], kind: str):
        self.kind = kind
        self.names = tuple(figures)
        self.__dict__.update(figures)
        self.n = len(next(iter(figures.values())))
        self.__dict__.setdefault("deflector_in", np.ones(self.n))

    def pick(self, index) -> Cookers:
        """The cookers at index (an array of positions), in that order, repeats allowed."""
        chosen = Cookers({name: getattr(self, name)[index] for name in self.names}, self.kind)
        chosen.deflector_in = self.deflector_in[index]
        return chosen


@cache
def kind_ranges(kind: str) -> dict[str, Range]:
    """Ranges of a kind, by parameter. Raises ProfileError naming the kinds there are."""
    path = FOLDER / f"{kind}.toml"
    if kind == "common" or not path.is_file():
        raise ProfileError(
            f"no cooker of kind {kind!r}", "so its figures are not known", f"use one of {kinds()}"
        )
    tables = [tomllib.loads(file.read_text(encoding="utf-8")) for file in (FOLDER / "common.toml", path)]
    return {name: Range(**entry) for table in tables for name, entry in table.items()}


def kinds() -> list[str]:
    """Kinds of cookers with a file."""
    return sorted(path.stem for path in FOLDER.glob("*.toml") if path.stem != "common")


def from_z(kind: str, z: np.ndarray, deflector_in: float = 1.0) -> Cookers:
    """Cookers at z (parameters, n), rows in the order of kind_ranges."""
    ranges = kind_ranges(kind)
    cookers = Cookers({name: r.at(row) for (name, r), row in zip(ranges.items(), z, strict=True)}, kind)
    cookers.deflector_in = np.full(cookers.n, float(deflector_in))
    return cookers


def draw_z(kind: str, n: int, rng: np.random.Generator, width: float = 1.0) -> np.ndarray:
    """Standard normal draws (parameters, n), cut at +-FURTHEST; width above 1 reaches outside the stated
    ranges.
    """
    return np.clip(rng.standard_normal((len(kind_ranges(kind)), n)), -FURTHEST, FURTHEST) * width


def sample(kind: str, n: int, rng: np.random.Generator, width: float = 1.0) -> Cookers:
    """n plausible cookers of a kind."""
    return from_z(kind, draw_z(kind, n, rng, width))


def middle(kind: str, n: int = 1) -> Cookers:
    """The cooker at the middle of every range, n times."""
    return from_z(kind, np.zeros((len(kind_ranges(kind)), n)))
