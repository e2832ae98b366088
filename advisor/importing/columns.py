"""Which column of a file is what: by the words of its name first, by its figures where the name says nothing."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import quantiles
from typing import Any, Literal, get_args

from advisor.importing.degrees import number
from advisor.importing.moments import OF_CLOCK, WHOLE
from advisor.importing.refusals import CellWrong, FileRefused, Undecided
from advisor.importing.words import ColumnWords, Role
from advisor.suggestions import did_you_mean

Probe = Literal["dome", "grate", "meat", "ambient"]
PROBES: tuple[Probe, ...] = get_args(Probe)
MOST_OF = 0.5               # share of the filled cells that are figures in a column of figures, and times in one of times
HOT_AS_THE_HOTTEST = 0.75   # a second probe this near the hottest sits in the same air: judgement
COOL_SHARE = 0.45           # one that never gets past this share of the hottest is outside it: judgement
NUMBERED = re.compile(r"(?:\w{0,2}|column)\s*\d+", re.IGNORECASE)
MOST_NAMES = 12             # a column of more different words names no probes


@dataclass(frozen=True)
class Columns:
    """Where things stand, as positions of columns. time: one position, or date and time of day apart.

    probes: wide files, a column for each probe; named: long ones, (name of the probe, value) columns.
    """

    time: tuple[int, ...] = ()
    probes: Mapping[Probe, int] = field(default_factory=dict)
    named: tuple[int, int] | None = None
    target: int | None = None
    unit: int | None = None
    kind: int | None = None
    left_out: tuple[int, ...] = ()


@dataclass(frozen=True)
class Sample:
    """Columns of a sample of the rows, in the file's order."""

    names: tuple[str, ...]
    columns: tuple[tuple[Any, ...], ...]

    def filled(self, at: int) -> list[Any]:
        return [cell for cell in self.columns[at] if str(cell).strip()]

    def figures(self, at: int, missing: frozenset[str] = frozenset()) -> list[float]:
        found = []
        for cell in self.filled(at):
            try:
                found.append(number(cell))
            except CellWrong:
                continue
        return found


def find_columns(sample: Sample, words: ColumnWords, told: Mapping[str, str]) -> Columns:
    """Raises Undecided when there is no time, FileRefused when a column told is not there or none holds a reading."""
    taken = {role: _position(name, sample.names, role) for role, name in told.items()}
    roles = {at: words.roles(name) for at, name in enumerate(sample.names)}
    numeric = [at for at in range(len(sample.names)) if _is_numeric(sample, at, words.missing)]
    times = _times(sample, roles, taken)
    if named := _long(sample, roles, numeric, taken, times):
        return Columns(times, named=named, unit=_first(roles, "unit", numeric, False),
                       kind=_first(roles, "kind", numeric, False))
    target = taken.get("target", _first(roles, "target", [at for at in numeric if at not in times], True))
    free = [at for at in numeric if at not in (*times, target, *taken.values())]
    probes = {role: at for role, at in taken.items() if role in PROBES}
    if not probes:
        probes = _by_name(free, roles)
        probes = _by_figures(sample, free, probes, roles)
    if not probes:
        raise FileRefused(f"none of the columns ({', '.join(sample.names)[:120]}) holds temperatures", "",
                          "name them: --columns time=NAME,dome=NAME,meat=NAME")
    rest = [at for at in free if at not in probes.values() and "left_out" not in dict(roles[at])]
    ordered = {probe: probes[probe] for probe in PROBES if probe in probes}
    return Columns(times, ordered, target=target, unit=_first(roles, "unit", numeric, False), left_out=tuple(rest))


def role_of_probe(name: str, words: ColumnWords) -> Probe | None:
    """What a long file's name of a probe means."""
    return next((role for role, _ in words.roles(name) if role in PROBES), None)


def _position(name: str, names: Sequence[str], role: str) -> int:
    if role not in (*PROBES, "time", "target"):
        raise FileRefused(f"--columns speaks of {role!r}", "nothing is called so",
                          did_you_mean(role, (*PROBES, "time", "target")))
    folded = [known.casefold() for known in names]
    if name.casefold() in folded:
        return folded.index(name.casefold())
    if name.isdecimal() and 1 <= int(name) <= len(names):
        return int(name) - 1
    raise FileRefused(f"there is no column {name!r}", f"the file has {', '.join(names)[:120]}",
                      did_you_mean(name, names))


def _is_numeric(sample: Sample, at: int, missing: frozenset[str]) -> bool:
    filled = [cell for cell in sample.filled(at) if str(cell).strip().casefold() not in missing]
    return bool(filled) and len(sample.figures(at)) >= MOST_OF * len(filled)


def _first(roles: Mapping[int, list[tuple[Role, int]]], role: Role, numeric: Sequence[int], is_numeric: bool) -> int | None:
    """The first column whose name says `role` before anything else, among columns of figures or of words."""
    return next((at for at, found in roles.items()
                 if found and found[0][0] == role and (at in numeric) == is_numeric), None)


def _times(sample: Sample, roles: Mapping[int, list[tuple[Role, int]]], taken: Mapping[str, int]) -> tuple[int, ...]:
    """The column of times, with the one of dates before it where they stand apart."""
    dates = [at for at in range(len(sample.names)) if _share(sample, at, _is_date_alone) > MOST_OF]
    if "time" in taken:
        main = taken["time"]
    else:
        named = [at for at, found in roles.items() if found and found[0][0] in ("time", "date")]
        whole = [at for at in range(len(sample.names)) if _share(sample, at, _is_date_and_time) > MOST_OF]
        clocks = [at for at in range(len(sample.names)) if _share(sample, at, OF_CLOCK.fullmatch) > MOST_OF]
        candidates = ([at for at in named if at in whole] or whole or [at for at in named if at in clocks] or clocks
                      or [at for at in named if at not in dates and sample.figures(at)] or dates
                      or ([0] if _counts_up(sample) else []))
        if not candidates:
            raise Undecided("no column holds times", "readings without a time say nothing of a cook",
                            "--columns time=NAME")
        main = candidates[0]
    if main not in dates and dates and _share(sample, main, OF_CLOCK.fullmatch) > MOST_OF:
        return dates[0], main
    return (main,)


def _counts_up(sample: Sample) -> bool:
    """A first column that only grows, beside others, is a count of time."""
    figures = sample.figures(0)
    return (len(sample.names) > 1 and len(figures) > 2 and len(figures) == len(sample.filled(0))
            and all(earlier < later for earlier, later in pairwise(figures)))


def _share(sample: Sample, at: int, fits: Any) -> float:
    filled = sample.filled(at)
    return sum(bool(fits(str(cell))) for cell in filled) / len(filled) if filled else 0.0


def _is_date_alone(text: str) -> bool:
    return bool((found := WHOLE.fullmatch(text)) and not found["h"])


def _is_date_and_time(text: str) -> bool:
    return bool((found := WHOLE.fullmatch(text)) and found["h"])


def _long(sample: Sample, roles: Mapping[int, list[tuple[Role, int]]], numeric: Sequence[int], taken: Mapping[str, int],
          times: Sequence[int]) -> tuple[int, int] | None:
    """(column of probes' names, column of values) of a file with one reading a line."""
    if any(role in PROBES for role in taken):
        return None
    names = next((at for at, found in roles.items() if at not in numeric and at not in times
                  and "probe" in dict(found) and 0 < len(set(map(str, sample.filled(at)))) <= MOST_NAMES), None)
    values = [at for at in numeric if at not in times and {"value", "dome"} & dict(roles[at]).keys()]
    if names is None or not values:
        return None
    return names, next((at for at in values if "value" in dict(roles[at])), values[0])


def _by_name(free: Sequence[int], roles: Mapping[int, list[tuple[Role, int]]]) -> dict[Probe, int]:
    """Each probe's column with the best word for it; a column goes to one probe only."""
    found: dict[Probe, int] = {}
    offers = [(size, -at, role) for at in free for role, size in roles[at][:1] if role in PROBES]
    for _, at, role in sorted(offers, reverse=True):
        if role not in found and -at not in found.values():
            found[role] = -at
    return found


def _by_figures(sample: Sample, free: Sequence[int], named: dict[Probe, int],
                roles: Mapping[int, list[tuple[Role, int]]]) -> dict[Probe, int]:
    """Columns whose names say nothing, by how hot they get; and a name put right where the figures say otherwise."""
    found = dict(named)
    level = {at: _upper(sample.figures(at)) for at in free}
    if not level:
        return found
    hottest = max(level, key=level.__getitem__)
    if found.get("ambient") == hottest and not {"dome", "grate"} & found.keys():
        found["grate"] = found.pop("ambient")  # "ambient" of the cooker, beside the food
    nameless = [at for at in free if at not in found.values()
                and not {"left_out", "dome", "grate", "ambient"} & dict(roles[at][:1]).keys()]
    for at in sorted(nameless, key=lambda at: -level[at]):
        role = _by_level(level[at] / level[hottest], found)
        if role and role not in found and (role != "ambient" or _says_probe(sample.names[at], roles[at])):
            found[role] = at
    return found


def _says_probe(name: str, roles: list[tuple[Role, int]]) -> bool:
    """Whether a column is called no more than a thermometer's: what is cool may be anything, a battery or the wind."""
    return bool({"probe", "dome"} & dict(roles).keys() or NUMBERED.fullmatch(name.strip()))


def _by_level(share: float, found: Mapping[Probe, int]) -> Probe | None:
    if share >= HOT_AS_THE_HOTTEST:
        return "dome" if "dome" not in found else "grate"
    return "meat" if "meat" not in found or share > COOL_SHARE else "ambient"


def _upper(figures: Sequence[float]) -> float:
    """What it reaches and keeps."""
    return max(1e-9, quantiles(figures, n=4)[2] if len(figures) > 1 else max(figures, default=0.0))
