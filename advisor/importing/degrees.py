"""Cells to temperatures in °F, and which unit and which decimal sign a file's temperatures are written in."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from statistics import quantiles
from typing import Any

from advisor.importing.refusals import CellWrong, Undecided
from advisor.importing.words import ColumnWords, Unit
from advisor.units import c_to_f

Bounds = tuple[float, float]
SUFFIX = " \t°ºCcFfdeg"
DIGITS = 4              # of a converted temperature: more than any probe has, and no tail of nines in what is exported
BOILING_C = 100.0       # the inside of meat holds water and cannot pass this, so a hotter meat is in °F
# Levels of a fire that is in use, judgement (common practice, no published source): nobody holds a cooker below 165 °F,
# which is what 150 read as °F would be, and hardly anybody above 190 °C.
SURELY_C, SURELY_F = 150.0, 190.0
COLD_C, WARM_F = 35.0, 45.0   # where a cooker starts: no colder than freezing, no warmer than a summer's day


@dataclass(frozen=True)
class UnitGuess:
    """because: from what it was told, for the person who reads it."""

    unit: Unit
    because: str


def number(cell: Any) -> float:
    """The figure in a cell, a decimal comma and a trailing unit allowed. Raises CellWrong."""
    if isinstance(cell, bool):
        raise CellWrong("true or false is no temperature")
    if isinstance(cell, int | float):
        return float(cell)
    text = cell.strip().rstrip(SUFFIX).replace("\u2212", "-")
    if "," in text:
        comma_is_decimal = text.rfind(",") > text.rfind(".")
        text = text.replace(".", "").replace(",", ".") if comma_is_decimal else text.replace(",", "")
    try:
        return float(text)
    except ValueError:
        raise CellWrong(f"{str(cell).strip()[:30]!r} is no number") from None


def reader(unit: Unit, missing: frozenset[str], bounds: Bounds) -> Callable[[Any], float | None]:
    """Cell -> °F, None where it holds no reading. The reader raises CellWrong."""
    low, high = bounds
    celsius = unit == "C"

    def read(cell: Any) -> float | None:
        try:
            value = float(cell)
        except (ValueError, TypeError):
            if str(cell).strip().casefold() in missing:
                return None
            value = number(cell)
        if celsius:
            value = round(c_to_f(value), DIGITS)
        if low <= value <= high:
            return value
        if math.isnan(value):
            return None
        raise CellWrong(f"{str(cell).strip()[:30]} is beyond what this probe can read")

    return read


def unit_of(words: ColumnWords, name: str, cells: Sequence[Any]) -> Unit | None:
    """The unit that a column's name or the text of its cells carries."""
    if named := words.unit(name):
        return named
    marked = [words.unit(cell) for cell in cells[:50] if isinstance(cell, str) and not cell.strip().isdecimal()]
    return next((unit for unit in marked if unit), None)


def guess_unit(columns: Mapping[str, Sequence[float]]) -> UnitGuess:
    """The unit of temperatures by probe (dome, grate, meat, ambient), from their figures. Raises Undecided."""
    meat, fire = columns.get("meat", ()), columns.get("dome") or columns.get("grate") or ()
    if meat and _upper(meat) > BOILING_C + 5.0:
        return UnitGuess("F", "the meat passes 100, which no meat does in °C")
    if fire:
        level, start = _upper(fire), min(fire)
        if level < SURELY_C:
            return UnitGuess("C", f"a fire at {level:.0f} °F would be out")
        if start < COLD_C:
            return UnitGuess("C", f"it starts at {start:.0f}")
        if start >= WARM_F and level >= SURELY_F:
            return UnitGuess("F", f"the cooker runs at {level:.0f}")
    raise Undecided("nothing says whether the temperatures are °F or °C", "both would make sense", "--units",
                    (("F", "Fahrenheit"), ("C", "Celsius")))


def _upper(values: Sequence[float]) -> float:
    """What it reaches and keeps: three quarters of the readings lie below."""
    return quantiles(values, n=4)[2] if len(values) > 1 else values[0]
