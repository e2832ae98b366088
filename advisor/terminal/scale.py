"""Degrees as a person gives them to a command: 275, 275F or 135C."""

import re

from advisor.errors import CommandRefused
from advisor.terminal import ready
from advisor.units import c_to_f

TARGET = re.compile(r"(\d{2,4}(?:\.\d+)?)\s*°?([FfCc]?)")


def target_f(words: str | None) -> float | None:
    """In °F; a bare figure is in the scale of the settings. Raises CommandRefused."""
    if words is None:
        return None
    if not (found := TARGET.fullmatch(words.strip())):
        raise CommandRefused(f"the target {words[:20]!r} is no temperature", "", "say 275, 275F or 135C")
    scale = scale_of(words) or ready.settings().units.temperature or "F"
    return c_to_f(float(found[1])) if scale == "C" else float(found[1])


def scale_of(words: str | None) -> str | None:
    """F or C where the words say so."""
    found = TARGET.fullmatch(words.strip()) if words else None
    return found[2].upper() or None if found else None
