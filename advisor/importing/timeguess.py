"""How a file writes its times, told from a sample of them; what it leaves open is said as a question."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime, tzinfo
from itertools import pairwise
from statistics import median
from typing import Any, Literal

from advisor.importing.moments import DAY, HOUR, MINUTE, OF_CLOCK, SECOND, WHOLE, TimeForm, clock_ms
from advisor.importing.refusals import CellWrong, FileRefused, Undecided

Told = Literal["day-first", "month-first", "seconds", "minutes", "hours", "of-day"]  # what --times may say
MOST_OF = 0.8               # share of the sample that has to be of one form: the rest are slips
SECONDS_SINCE = (5e8, 4.1e9)       # 1985 to 2099
SPREADSHEET_DAYS = (30_000.0, 75_000.0)  # 1982 to 2105
LONGEST_COOK_MIN = 3000.0   # 50 hours; a larger elapsed number counts seconds: judgement
NEXT_DAY_AHEAD = DAY        # a reading further in the future than this comes of days and months taken the wrong way
UNIT_WORDS = {"seconds": ("s", "sec", "secs", "second", "seconds", "sekunden", "secondes", "segundos", "secondi", "seconden"),
              "minutes": ("min", "mins", "minute", "minutes", "minuten", "minutos", "minuti"),
              "hours": ("h", "hr", "hrs", "hour", "hours", "stunden", "heures", "horas", "ore", "uren")}
UNIT_MS = {"seconds": SECOND, "minutes": MINUTE, "hours": HOUR}
DATE_CHOICES = (("day-first", "the day stands before the month"), ("month-first", "the month stands first"))
UNIT_CHOICES = (("seconds", ""), ("minutes", ""), ("hours", ""))
ELAPSED_WORDS = {"elapsed", "duration", "runtime", "run", "laufzeit", "dauer", "verstrichen", "duree", "ecoule", "duracion",
                 "durata", "duur", "verlopen"}


def time_form(cells: Sequence[Any], name_words: Sequence[str], now_ms: int, zone: tzinfo | None,
              start: datetime | None, told: Told | None, months: Callable[[str], int | None]) -> TimeForm:
    """The form of a column of times. cells: a sample in the file's order; name_words: the column's name, in words.

    Raises Undecided with the option that settles it, FileRefused when they are no times at all.
    """
    cells = [cell for cell in cells if str(cell).strip()]
    base = TimeForm("year-first", zone=zone, months=months)
    figures = [_figure(cell) for cell in cells]
    if _mostly(figures):
        return _counted([f for f in figures if f is not None], name_words, base, start, told)
    if _mostly(dates := [WHOLE.fullmatch(str(cell)) for cell in cells]):
        return _dated([found for found in dates if found], [str(c) for c in cells], base, now_ms, told)
    if _mostly(clocks := [OF_CLOCK.fullmatch(str(cell)) for cell in cells]):
        return _clocked([found for found in clocks if found], name_words, base, start, told)
    example = str(cells[0])[:30] if cells else ""
    raise FileRefused(f"the times ({example!r}) are of no form that is known", "readings without a time say nothing",
                      "name the column with --columns time=NAME, or write times as 2026-11-24 18:30")


def _mostly(found: Sequence[Any]) -> bool:
    return bool(found) and sum(one is not None for one in found) >= MOST_OF * len(found)


def _figure(cell: Any) -> float | None:
    try:
        return None if isinstance(cell, bool) else float(str(cell).replace(",", "."))
    except ValueError:
        return None


def _counted(figures: list[float], name_words: Sequence[str], base: TimeForm, start: datetime | None,
             told: Told | None) -> TimeForm:
    """Plain numbers: since 1970, a spreadsheet's days, or elapsed."""
    middle = median(figures)
    for power in (1, 1000, 1_000_000):
        if SECONDS_SINCE[0] * power <= middle <= SECONDS_SINCE[1] * power:
            return replace(base, kind="since-1970", unit_ms=SECOND / power)
    days = SPREADSHEET_DAYS[0] <= min(figures) and max(figures) <= SPREADSHEET_DAYS[1]
    if days and told is None and max(figures) - min(figures) < 3660 and any(f % 1 for f in figures):
        return replace(base, kind="spreadsheet", unit_ms=DAY)
    unit = told if told in UNIT_MS else _unit_named(name_words) or _unit_by_size(figures)
    return replace(base, kind="elapsed", unit_ms=UNIT_MS[unit], start=_needed(start, "elapsed times"))


def _unit_named(name_words: Sequence[str]) -> str | None:
    return next((unit for unit, words in UNIT_WORDS.items() if set(words) & set(name_words)), None)


def _unit_by_size(figures: list[float]) -> str:
    if max(figures) > LONGEST_COOK_MIN:
        return "seconds"
    raise Undecided(f"the times run from {figures[0]:g} to {figures[-1]:g} and nothing says of what",
                    "seconds, minutes and hours make different cooks", "--times", UNIT_CHOICES)


def _needed(start: datetime | None, what: str) -> datetime:
    if start is None:
        raise Undecided(f"the file has {what} only", "which day it was cannot be told from them",
                        '--start "2026-11-24 18:30" (when the first reading was taken)')
    return start


def _dated(found: list[re.Match[str]], cells: list[str], base: TimeForm, now_ms: int, told: Told | None) -> TimeForm:
    base = replace(base, with_offset=_mostly([match["offset"] for match in found]))
    figures = [match for match in found if match["one"] and match["two"].isdecimal()]
    if not figures or _mostly([True if len(match["one"]) == 4 else None for match in figures]):
        return base
    for kind, others in (("day-first", "month-first"), ("month-first", "day-first")):
        at = "one" if kind == "day-first" else "two"
        if told == kind or told is None and any(12 < int(match[at]) <= 31 for match in figures):
            return replace(base, kind=kind)
    if all("." in match["date"] for match in figures):
        return replace(base, kind="day-first")  # dates with dots are written so where the day comes first
    return replace(base, kind=_by_sense(cells, base, now_ms))


def _by_sense(cells: list[str], base: TimeForm, now_ms: int) -> Literal["day-first", "month-first"]:
    """The order under which the times run on without leaps, and none lies in the future."""
    spans = {}
    for kind in ("day-first", "month-first"):
        times = _read(replace(base, kind=kind), cells)
        leaps = sum(abs(later - earlier) for earlier, later in pairwise(times))
        if times and max(times) <= now_ms + NEXT_DAY_AHEAD:
            spans[kind] = leaps
    if len(spans) == 1:
        return next(iter(spans))
    if len(spans) == 2 and spans["day-first"] != spans["month-first"]:
        return min(spans, key=spans.__getitem__)
    if len({cell.split()[0][:10] for cell in cells}) == 1 and _same_either_way(cells[0]):
        return "day-first"
    raise Undecided(f"the dates ({cells[0].strip()[:20]!r}) may start with the day or with the month",
                    "both would make sense", "--times", DATE_CHOICES)


def _same_either_way(cell: str) -> bool:
    found = WHOLE.fullmatch(cell)
    return bool(found and found["one"] and int(found["one"]) == int(found["two"]))


def _read(form: TimeForm, cells: Sequence[str]) -> list[int]:
    read, times = form.reader(), []
    for cell in cells:
        try:
            times.append(read(cell))
        except CellWrong:
            continue
    return times


def _clocked(found: list[re.Match[str]], name_words: Sequence[str], base: TimeForm, start: datetime | None,
             told: Told | None) -> TimeForm:
    """12:34 and the like: a time of day, unless it can only be counted from the start."""
    first, last = found[0], found[-1]
    no_day = any(int(match["h"]) > 23 for match in found)
    from_nought = int(first["h"]) == 0 and int(first["m"]) == 0 and not first["half"]
    named = bool(ELAPSED_WORDS & set(name_words))
    if told != "of-day" and (told in UNIT_MS or no_day or named or from_nought):
        start = _needed(start, "elapsed times")
        in_hours = told == "hours" or told is None and not (no_day or _unit_named(name_words) in ("minutes", "seconds"))
        return replace(base, kind="elapsed", unit_ms=MINUTE if in_hours else SECOND, start=start, in_parts=True)
    clock_ms(last)
    return replace(base, kind="of-day", start=_needed(start, "times of day"))
