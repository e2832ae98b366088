"""Conversions between what people say and what the program keeps (°F, inches, kilograms, minutes)."""

from dataclasses import dataclass, replace
from typing import Literal

CM_PER_INCH = 2.54          # exact, international yard and pound agreement 1959
KG_PER_POUND = 0.45359237   # exact, same agreement
FEET_PER_METRE = 1 / 0.3048  # exact, same agreement


@dataclass(frozen=True, slots=True)
class UnitStyle:
    """The units a person speaks in; replies come back in them."""

    temperature: Literal["F", "C"] = "F"
    length: Literal["in", "cm"] = "in"
    mass: Literal["lb", "kg"] = "lb"


@dataclass(frozen=True, slots=True)
class SpokenUnits:
    """Units that a person has laid down once and for all; None: whatever they speak in."""

    temperature: Literal["F", "C"] | None = None
    length: Literal["in", "cm"] | None = None

    def said(self, spoken: UnitStyle | None) -> UnitStyle:
        """The units to answer in, for somebody who has `spoken` in these so far."""
        style = spoken or UnitStyle()
        return replace(style, temperature=self.temperature or style.temperature, length=self.length or style.length)

    def heard(self, spoken: UnitStyle | None) -> UnitStyle | None:
        """The units of figures said without any; None while nothing shows them."""
        return self.said(spoken) if spoken or self.temperature else None


def c_to_f(celsius: float) -> float:
    """A temperature in °C to °F."""
    return celsius * 9 / 5 + 32


def f_to_c(fahrenheit: float) -> float:
    """A temperature in °F to °C."""
    return (fahrenheit - 32) * 5 / 9


def difference_c_to_f(kelvins: float) -> float:
    """A temperature difference in °C to °F: no 32 in it."""
    return kelvins * 9 / 5


def difference_f_to_c(degrees: float) -> float:
    """A temperature difference in °F to °C."""
    return degrees * 5 / 9


def inches_to_cm(inches: float) -> float:
    return inches * CM_PER_INCH


def pounds_to_kg(pounds: float) -> float:
    return pounds * KG_PER_POUND


def kg_to_pounds(kg: float) -> float:
    return kg / KG_PER_POUND
