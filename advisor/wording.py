"""Values to words, in the units the person speaks, and the filling of {placeholders} in texts of the rule base."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from advisor.facts import Value
from advisor.units import UnitStyle, difference_f_to_c, f_to_c, inches_to_cm, kg_to_pounds, pounds_to_kg
from advisor.vocabulary import FactType, Vocabulary

PLACEHOLDER = re.compile(r"\{(\w+)(?:\|([^}]*))?\}")
FIGURE = re.compile(r"\{(\d+(?:\.\d+)?)(?:-(\d+))? (°F|degrees|inch|inches|lb)\}")
OPENINGS = ((0.0, "shut"), (0.03, "open a hair"), (0.05, "barely open"), (0.08, "open a crack"),
            (0.12, "an eighth open"), (0.17, "a sixth open"), (0.2, "a fifth open"), (0.25, "a quarter open"),
            (0.33, "a third open"), (0.4, "two fifths open"), (0.5, "half open"), (0.6, "three fifths open"),
            (0.67, "two thirds open"), (0.75, "three quarters open"), (0.85, "nearly wide open"), (1.0, "wide open"))
SHARES, SMALLEST_SHARE = {"fuel_level", "wood_share", "fat_share"}, 0.03
INCHES = {0.25: "a quarter inch", 0.5: "half an inch", 0.75: "three quarters of an inch", 1.0: "an inch",
          1.5: "an inch and a half"}
SAME_OPENING = 0.005  # two openings closer than this are one
PARTS = ((0.1, "a tenth"), (0.2, "a fifth"), (0.25, "a quarter"), (0.33, "a third"), (0.5, "half"), (0.67, "two thirds"))
STEP_TYPES: dict[str, FactType] = {"opening": "fraction", "opening_in": "inches", "crack_in": "inches",
                                   "wait_min": "minutes", "fuel_kg": "kilograms"}


@dataclass(frozen=True, slots=True)
class Wording:
    """How to say things to this person."""

    vocabulary: Vocabulary
    units: UnitStyle = field(default_factory=UnitStyle)

    def fill(self, text: str, values: Mapping[str, Value | None]) -> str:
        """`text` with its braces filled: {name}, {name|words when unknown}, and figures such as {140 °F} (a temperature),
        {15 degrees} (a difference), {10-15 degrees}, {1 inch}, {5 lb}."""

        def word(found: re.Match[str]) -> str:
            name, otherwise = found.groups()
            value = values.get(name)
            if value is not None:
                return self.say(name, value)
            return otherwise if otherwise is not None else f"the {name.removesuffix('_f').replace('_', ' ')}"

        return PLACEHOLDER.sub(word, FIGURE.sub(self._figure, text))

    def _figure(self, found: re.Match[str]) -> str:
        """A figure that stands in a text, in this person's units."""
        low, high, unit = found.groups()
        say = {"°F": self.temperature, "degrees": self.difference, "lb": lambda pounds: self.mass(pounds_to_kg(pounds))}
        words = say.get(unit, self.length)
        if high is None:
            return words(float(low))
        return f"{words(float(low)).split()[0]} to {words(float(high))}"

    def say(self, name: str, value: Value) -> str:
        """One value in words; over_f is said without its sign."""
        if isinstance(value, bool):
            return "yes" if value else "no"
        if isinstance(value, str):
            return value.replace("_", " ")
        kind = STEP_TYPES.get(name) or (self.vocabulary[name].type if name in self.vocabulary else None)
        return {
            "temperature": self.temperature, "difference": lambda v: self.difference(abs(v)), "minutes": minutes,
            "fraction": share if name in SHARES else opening, "inches": self.length, "kilograms": self.mass,
            "rate": lambda v: f"{self.difference(abs(v))} a minute",
            "feet": lambda v: f"{v:.0f} ft" if self.units.length == "in" else f"{v * 0.3048:.0f} m",
        }.get(kind or "", lambda v: f"{v:g}")(value)

    def temperature(self, fahrenheit: float) -> str:
        return f"{f_to_c(fahrenheit):.0f} °C" if self.units.temperature == "C" else f"{fahrenheit:.0f} °F"

    def difference(self, degrees: float) -> str:
        return f"{difference_f_to_c(degrees):.0f} °C" if self.units.temperature == "C" else f"{degrees:.0f} °F"

    def length(self, inches: float) -> str:
        if self.units.length == "cm":
            return f"{inches_to_cm(inches):.1f} cm"
        return INCHES.get(round(inches, 2), f"{inches:g} inches")

    def mass(self, kg: float) -> str:
        return f"{kg_to_pounds(kg):.1f} lb" if self.units.mass == "lb" else f"{kg:.1f} kg"


def opening(fraction: float) -> str:
    """A vent's opening as a cook would say it: the nearest of a few words."""
    if fraction > 0 and fraction < 0.015:
        return "open a hair"
    return min(OPENINGS, key=lambda pair: abs(pair[0] - fraction))[1]


def opening_from(fraction: float, stands: float | None) -> str:
    """The same, seen from where the vent stands: "a quarter less open than now" where the words alone would be those of now."""
    said = opening(fraction)
    if not fraction or not stands or abs(fraction - stands) < SAME_OPENING or said != opening(stands):
        return said
    change = abs(1 - fraction / stands)
    part = min(PARTS, key=lambda pair: abs(pair[0] - change))[1]
    return f"{part} {'less' if fraction < stands else 'more'} open than now"


def share(fraction: float) -> str:
    """A share of a full basket, or of the charcoal, to the nearest five in a hundred."""
    return f"{5 * round(20 * fraction)} %" if fraction >= SMALLEST_SHARE else "next to nothing"


def minutes(number: float) -> str:
    """A time as a cook would say it."""
    whole = max(0, round(number))
    if whole < 60:
        return _counted(whole, "minute")
    hours, rest = divmod(whole, 60)
    return _counted(hours, "hour") + (f" {_counted(rest, 'minute')}" if rest else "")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
