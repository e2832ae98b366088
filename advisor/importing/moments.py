"""Cells to moments (milliseconds UTC since 1970), one form for a whole file.

Forms: dates year first, day first or month first, with or without offset; seconds, milliseconds or microseconds since
1970; days of a spreadsheet; times of day; time elapsed since a start.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import Any, Literal

from advisor.importing.refusals import CellWrong

Kind = Literal["year-first", "day-first", "month-first", "since-1970", "spreadsheet", "of-day", "elapsed"]
SECOND, MINUTE, HOUR, DAY = 1000, 60_000, 3_600_000, 86_400_000
DAY_ONE = date(1970, 1, 1).toordinal()
SPREADSHEET_DAY_ZERO = date(1899, 12, 30).toordinal() - DAY_ONE   # day 0 of spreadsheets, from memory
CLOCK = (r"(?P<h>\d{1,4})[:h](?P<m>\d{1,2})(?:[:m](?P<s>\d{1,2})(?:[.,](?P<part>\d{1,9}))?)?s?"
         r"(?:\s*(?P<half>[AaPp])\.?[Mm]\.?)?")
DATE = r"(?P<one>\d{1,4})[-/.\s]\s*(?P<two>\d{1,2}|[^\W\d_]{3,10}\.?)[-/.,\s]\s*(?P<three>\d{1,4})\.?"
NAMED = r"(?P<name>[^\W\d_]{3,10})\.?\s+(?P<day>\d{1,2})(?:st|nd|rd|th)?,?\s+(?P<year>\d{4})"
OFFSET = r"\s*(?P<offset>Z|z|UTC|GMT|[+-]\d{2}:?\d{2}|[+-]\d{2})?(?:\s*\[[^\]]*\])?"
AT = r"[^\W\d_]{1,4}\.?\s+"   # "kl.", "um", "at" between a date and its time
WHOLE = re.compile(rf"\s*(?:[^\W\d_]{{2,10}}[.,]+\s*)?(?P<date>{DATE}|{NAMED})(?:[T,_\s-]+\s*(?:{AT})?{CLOCK}{OFFSET})?\s*")
OF_CLOCK = re.compile(rf"\s*{CLOCK}\s*")
WRAPS_MS = 6 * HOUR       # a time of day that falls back by more is the next day's


@dataclass(frozen=True)
class TimeForm:
    """kind: how times are written; unit_ms: of a number, in milliseconds; start: what times of day and elapsed times
    count from (naive, in `zone`); zone: where naive times hold, None for the machine's own; with_offset: each time
    carries its own; in_parts: elapsed times stand as 1:23:45.
    """

    kind: Kind
    unit_ms: float = 1.0
    start: datetime | None = None
    zone: tzinfo | None = None
    months: Callable[[str], int | None] = lambda name: None
    with_offset: bool = False
    in_parts: bool = False

    def reader(self) -> Callable[[Any], int]:
        """Cell -> ms; keeps the last one in mind, so cells have to come in the file's order. Raises CellWrong."""
        if self.kind == "since-1970":
            return self._numbers()
        if self.kind == "spreadsheet":
            return self._days()
        if self.kind == "elapsed":
            return self._elapsed()
        dated = _Dated(self)
        return dated.of_day if self.kind == "of-day" else dated.dated

    def _numbers(self) -> Callable[[Any], int]:
        unit = self.unit_ms

        def read(cell: Any) -> int:
            try:
                return round(float(cell) * unit)
            except (ValueError, TypeError, OverflowError):
                raise CellWrong(f"{str(cell).strip()[:30]!r} is no time") from None

        return read

    def _days(self) -> Callable[[Any], int]:
        naive, zoned = self._numbers(), _Zoned(self.zone)
        return lambda cell: zoned.utc(naive(cell) + SPREADSHEET_DAY_ZERO * DAY)

    def _elapsed(self) -> Callable[[Any], int]:
        start = _Zoned(self.zone).utc(naive_ms(self.start))
        return lambda cell: start + elapsed_ms(cell, self.unit_ms)


class _Zoned:
    """Naive milliseconds to UTC. In the hour that a clock put back shows twice, time is taken to go on."""

    def __init__(self, zone: tzinfo | None) -> None:
        self._zone, self._offsets, self._last = zone, {}, 0

    def utc(self, naive: int) -> int:
        hour = naive // HOUR
        offsets = self._offsets.get(hour)
        if offsets is None:
            offsets = self._offsets[hour] = tuple(self._offset(hour, fold) for fold in (0, 1))
        first, second = naive - offsets[0], naive - offsets[1]
        self._last = second if second != first and first < self._last <= second else first
        return self._last

    def _offset(self, hour: int, fold: int) -> int:
        local = (datetime(1970, 1, 1) + timedelta(hours=hour)).replace(fold=fold)
        aware = local.replace(tzinfo=self._zone) if self._zone else local.astimezone()
        return round(aware.utcoffset().total_seconds() * SECOND)


class _Dated:
    """Dates with times, and times of day that run on over midnight."""

    def __init__(self, form: TimeForm) -> None:
        self._form, self._zoned, self._days = form, _Zoned(form.zone), {}
        self._day = naive_ms(form.start) // DAY * DAY if form.start else 0
        self._last = 0

    def dated(self, cell: Any) -> int:
        found = WHOLE.fullmatch(str(cell))
        if not found:
            raise CellWrong(f"{str(cell).strip()[:30]!r} is no date with a time")
        day = self._days.get(found["date"])
        if day is None:
            day = self._days[found["date"]] = day_ms(found, self._form.kind, self._form.months)
        naive = day + (clock_ms(found) if found["h"] else 0)
        return naive - offset_ms(found["offset"]) if found["offset"] else self._zoned.utc(naive)

    def of_day(self, cell: Any) -> int:
        found = OF_CLOCK.fullmatch(str(cell))
        if not found:
            raise CellWrong(f"{str(cell).strip()[:30]!r} is no time of day")
        clock = clock_ms(found)
        if clock < self._last - WRAPS_MS:
            self._day += DAY
        self._last = clock
        return self._zoned.utc(self._day + clock)


def naive_ms(moment: datetime) -> int:
    return round((moment.replace(tzinfo=UTC) - datetime(1970, 1, 1, tzinfo=UTC)).total_seconds() * SECOND)


def utc_ms(moment: datetime, zone: tzinfo | None) -> int:
    """A naive moment in `zone` as milliseconds UTC."""
    return _Zoned(zone).utc(naive_ms(moment))


def elapsed_ms(cell: Any, unit_ms: float) -> int:
    """A number of units, or 1:23:45; of two parts the unit says whether they are h:mm or m:ss. Raises CellWrong."""
    try:
        return round(float(str(cell).replace(",", ".")) * unit_ms)
    except ValueError:
        pass
    parts = str(cell).strip().split(":")
    try:
        figures = [float(part.replace(",", ".")) for part in parts]
    except ValueError:
        raise CellWrong(f"{str(cell).strip()[:30]!r} is no time elapsed") from None
    largest = HOUR if len(parts) == 3 else unit_ms * 60 if len(parts) == 2 else 24 * HOUR
    return round(sum(figure * largest / 60 ** at for at, figure in enumerate(figures)))


def clock_ms(found: re.Match[str]) -> int:
    """Milliseconds since midnight. Raises CellWrong."""
    hours, minutes, seconds = int(found["h"]), int(found["m"]), int(found["s"] or 0)
    if half := found["half"]:
        if not 1 <= hours <= 12:
            raise CellWrong(f"there is no {hours} o'clock {half}m")
        hours = hours % 12 + (12 if half in "Pp" else 0)
    if hours > 23 or minutes > 59 or seconds > 60:
        raise CellWrong(f"no clock shows {hours}:{minutes:02}:{seconds:02}")
    part = found["part"]
    return hours * HOUR + minutes * MINUTE + seconds * SECOND + (int(f"{part:0<3}"[:3]) if part else 0)


def offset_ms(offset: str) -> int:
    if offset[0] not in "+-":
        return 0
    digits = offset[1:].replace(":", "")
    size = int(digits[:2]) * HOUR + int(digits[2:] or 0) * MINUTE
    return -size if offset[0] == "-" else size


def day_ms(found: re.Match[str], kind: Kind, months: Callable[[str], int | None]) -> int:
    """Midnight of a date, naive. Raises CellWrong."""
    if found["name"]:
        parts = int(found["year"]), months(found["name"]), int(found["day"])
    else:
        parts = _ordered(found["one"], found["two"], found["three"], kind, months)
    year, month, day = parts
    try:
        return (date(year + 2000 if year < 100 else year, month or 0, day).toordinal() - DAY_ONE) * DAY
    except ValueError:
        raise CellWrong(f"no calendar has the date {found['date'][:30]}") from None


def _ordered(one: str, two: str, three: str, kind: Kind, months: Callable[[str], int | None]) -> tuple[int, int | None, int]:
    """(year, month, day) of three parts."""
    if not two.isdecimal():
        month = months(two)
        return (int(one), month, int(three)) if len(one) == 4 else (int(three), month, int(one))
    a, b, c = int(one), int(two), int(three)
    return {"year-first": (a, b, c), "day-first": (c, b, a), "month-first": (c, a, b)}[kind]
