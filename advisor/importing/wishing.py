"""What a person says of a file beforehand, or answers when asked, from words to Wishes. It knows nothing of terminals."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime
from typing import Any, get_args
from zoneinfo import ZoneInfo, available_timezones

from advisor.importing.recipe import Wishes
from advisor.importing.refusals import FileRefused
from advisor.importing.timeguess import Told
from advisor.suggestions import did_you_mean

UNITS = {"f": "F", "fahrenheit": "F", "°f": "F", "c": "C", "celsius": "C", "°c": "C"}
KEYS = ("columns", "units", "zone", "start", "times")


def wishes(said: dict[str, Any]) -> Wishes:
    """From option names without dashes to what they say; None where nothing was said. Raises FileRefused."""
    found = Wishes()
    for key in KEYS:
        for words in _each(said.get(key)):
            found = wish(found, key, words)
    return found


def wish(so_far: Wishes, key: str, words: str) -> Wishes:
    """One more wish. Raises FileRefused for words that mean nothing."""
    words = words.strip().strip('"')
    if key == "columns":
        return replace(so_far, columns=dict(so_far.columns) | _columns(words))
    if key == "units":
        return replace(so_far, units=_unit(words))
    if key == "zone":
        return replace(so_far, zone=_zone(words))
    if key == "start":
        return replace(so_far, start=_start(words))
    if words not in get_args(Told):
        raise FileRefused(f"{words[:20]!r} says nothing about times", "", f"say one of {', '.join(get_args(Told))}")
    return replace(so_far, times=words)


def _each(said: Any) -> Iterable[str]:
    return () if said is None else [said] if isinstance(said, str) else said


def _columns(words: str) -> dict[str, str]:
    """time=Zeit,dome=Pit -> roles to names; a comma in a name is kept where no = follows it."""
    found: dict[str, str] = {}
    role = ""
    for part in words.split(","):
        key, sign, name = part.partition("=")
        if sign:
            role = key.strip().casefold()
            found[role] = name.strip()
        elif role:
            found[role] += f",{part}"
        else:
            raise FileRefused(f"{words[:40]!r} names no column", "", "write it as dome=NAME, or dome=3 for the third")
    return found


def _unit(words: str) -> Any:
    if unit := UNITS.get(words.casefold()):
        return unit
    raise FileRefused(f"{words[:20]!r} is no unit", "", "say F or C")


def _zone(words: str) -> ZoneInfo:
    try:
        return ZoneInfo(words)
    except (KeyError, ValueError, OSError):
        raise FileRefused(f"there is no time zone {words[:40]!r}", "the times of the file would be off",
                          did_you_mean(words, available_timezones())) from None


def _start(words: str) -> datetime:
    try:
        return datetime.fromisoformat(words).replace(tzinfo=None)
    except ValueError:
        raise FileRefused(f"{words[:30]!r} is no date", "the file's times count from it",
                          "write it as 2026-11-24 or 2026-11-24 18:30") from None
