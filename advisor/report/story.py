"""One finished cook as a plain record: what was read, moved, lifted, advised, done and noted, in minutes from its start.

It knows neither where the record comes from nor what is made of it.
"""

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Literal

Point = tuple[float, float]   # (minute, °F)
Points = tuple[Point, ...]
Vent = Literal["bottom", "top"]


@dataclass(frozen=True, slots=True)
class VentMove:
    """A vent put to `opening` (0..1 of full travel); was: where it stood before, None when nobody said."""

    at_min: float
    vent: Vent
    opening: float
    was: float | None = None


@dataclass(frozen=True, slots=True)
class LidUp:
    """The lid lifted; lasted_min: how long it stayed up, None when not known."""

    at_min: float
    burp: bool = False
    lasted_min: float | None = None


@dataclass(frozen=True, slots=True)
class Deed:
    """A step of the advice reported done; act: a key of rules/acts.yaml."""

    at_min: float
    act: str
    says: str


@dataclass(frozen=True, slots=True)
class Advised:
    """One piece of advice: its steps in words, and the dangers that stood with it."""

    at_min: float
    steps: tuple[str, ...]
    dangers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Note:
    """Words the person wanted kept."""

    at_min: float
    words: str


@dataclass(frozen=True, slots=True)
class FuelTold:
    """What was said of the charcoal: level (0..1 of a full basket) first and last told, the weight of the first."""

    level_first: float | None = None
    level_last: float | None = None
    put_in_kg: float | None = None


@dataclass(frozen=True, slots=True)
class CookStory:
    """A cook. readings are oldest first; started: with its time zone; length_min: to the end, as told or last heard of.

    food_on_min, food_off_min, rested_until_min: when the food went on, came off, and had rested; None when not known.
    kind: the size of the cooker (a kind of the thermal model); measured_at: the thermometer that `dome` comes from.
    """

    started: datetime
    length_min: float
    number: int | None = None
    cooker: str = ""
    kind: str = "large"
    target_f: float | None = None
    outcome: str = ""
    finished: bool = True
    measured_at: Literal["dome", "grate"] = "dome"
    dome: Points = ()
    meat: Points = ()
    moves: tuple[VentMove, ...] = ()
    lids: tuple[LidUp, ...] = ()
    deeds: tuple[Deed, ...] = ()
    advice: tuple[Advised, ...] = ()
    notes: tuple[Note, ...] = ()
    fuel: FuelTold = field(default_factory=FuelTold)
    food: str = ""
    food_on_min: float | None = None
    food_off_min: float | None = None
    rested_until_min: float | None = None

    def clock(self, at_min: float) -> datetime:
        """The time of day at a minute of the cook."""
        return self.started + timedelta(minutes=at_min)
