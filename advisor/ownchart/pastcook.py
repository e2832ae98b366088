"""A past cook as plain figures: what was read, how the vents stood, what disturbed it. Minutes since any one moment."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Vent = Literal["bottom", "top"]


@dataclass(frozen=True, slots=True)
class Moved:
    """A vent put to `opening` (0..1); `was` is where it stood before, None when nobody knew."""

    at_min: float
    vent: Vent
    opening: float
    was: float | None = None


@dataclass(frozen=True, slots=True)
class PastCook:
    """readings: (minute, °F of the dome as shown), ascending; disturbed: minutes at which the lid was opened, charcoal or
    food put on; lit_min: when it was lit, None unknown; ambient_f: air outside, None unknown."""

    readings: tuple[tuple[float, float], ...]
    moves: tuple[Moved, ...]
    disturbed: tuple[float, ...] = ()
    lit_min: float | None = None
    ambient_f: float | None = None

    def stood(self, vent: Vent, minute: float) -> float | None:
        """Where a vent stood at a minute; None while it is unknown."""
        opening = next((move.was for move in self.moves if move.vent == vent), None)
        for move in self.moves:
            if move.vent == vent and move.at_min <= minute:
                opening = move.opening
        return opening
