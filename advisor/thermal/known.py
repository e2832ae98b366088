"""What is known of a cook, as plain figures; None is unknown. Times in minutes from now, so the past is
negative.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Reading:
    """The dome thermometer as read [F] at a time [min]."""

    at_min: float
    dome_f: float


@dataclass(frozen=True)
class VentMove:
    """Where the vents were put at a time [min] (openings 0..1, None left alone); burp: the lid was burped."""

    at_min: float
    bottom: float | None = None
    top: float | None = None
    burp: bool = False


@dataclass(frozen=True)
class Known:
    """A cook now. Only target and at least one reading are needed; the last reading must be the newest.

    bottom, top: openings before the first of `moves`, or now when there are none. fuel_share and ash describe
    now.
    """

    target_f: float
    readings: tuple[Reading, ...]
    bottom: float | None = None
    top: float | None = None
    moves: tuple[VentMove, ...] = ()
    lit_ago_min: float | None = None
    soaked: bool | None = None
    fuel_share: float | None = None
    ash_heavy: bool | None = None
    gasket_leaks: bool | None = None
    windy: bool | None = None
    wind_m_s: float | None = None
    ambient_f: float | None = None
    deflector_in: bool | None = None
    food_kg: float | None = None
    food_on: bool | None = None
    core_f: float | None = None
    kind: str = "large"

    @property
    def now_f(self) -> float:
        """The newest reading."""
        return self.readings[-1].dome_f


@dataclass(frozen=True)
class Action:
    """One thing to do in a plan, at a time [min] from now; like VentMove, but in the future."""

    at_min: float
    bottom: float | None = None
    top: float | None = None
    burp: bool = False


@dataclass(frozen=True)
class Deed:
    """One thing to do, after_min [min] after the one before: openings 0..1 (None left alone), a burp.

    at_most_f, at_least_f: due once the dome reads so; skipped instead of waited for when `or_never`.
    """

    after_min: float
    bottom: float | None = None
    top: float | None = None
    burp: bool = False
    at_most_f: float | None = None
    at_least_f: float | None = None
    or_never: bool = False
