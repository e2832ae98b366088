"""How one file is read: its columns, the form of its times, its units; found from a sample, used on every row."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, tzinfo
from itertools import groupby
from typing import Any

from advisor.importing.columns import PROBES, Columns, Probe, Sample, find_columns, role_of_probe
from advisor.importing.degrees import Bounds, UnitGuess, guess_unit, reader, unit_of
from advisor.importing.moments import TimeForm
from advisor.importing.refusals import CellWrong, FileRefused
from advisor.importing.table import Cells, Row
from advisor.importing.timeguess import Told, time_form
from advisor.importing.words import ColumnWords, Unit, plain

SAMPLE_ROWS = 2000
READING_KIND = "reading"     # what our own export calls a row that is one
BOUNDS: Mapping[Probe, Bounds] = {"dome": (-60.0, 1300.0), "grate": (-60.0, 1300.0), "meat": (-20.0, 250.0),
                                  "ambient": (-60.0, 200.0)}  # ambient as dome on the cold side; the rest as the vocabulary has it


@dataclass(frozen=True)
class Wishes:
    """What the person said beforehand. columns: role -> name of a column; zone: None for the machine's own."""

    columns: Mapping[str, str] = field(default_factory=dict)
    units: Unit | None = None
    zone: tzinfo | None = None
    start: datetime | None = None
    times: Told | None = None


@dataclass(frozen=True)
class Recipe:
    """names: of the columns; units: by probe (under "" the one of a long file), each with why; probes: what a long
    file's names of probes mean.
    """

    names: tuple[str, ...]
    columns: Columns
    form: TimeForm
    units: Mapping[str, UnitGuess]
    words: ColumnWords
    probes: Mapping[str, Probe] = field(default_factory=dict)
    bounds: Mapping[Probe, Bounds] = field(default_factory=lambda: BOUNDS)

    @property
    def scale(self) -> Unit | None:
        """The unit of the cooker's own probe, or of any."""
        guess = self.units.get("dome") or next(iter(self.units.values()), None)
        return guess.unit if guess else None

    def row_reader(self) -> "RowReader":
        return RowReader(self)


@dataclass(frozen=True)
class Measured:
    """What one row gave. values: probe -> °F; wrong: cells that could not be taken, in words."""

    at_ms: int
    values: dict[Probe, float]
    wrong: tuple[str, ...] = ()


class RowReader:
    """Rows in the file's order to what they measured."""

    def __init__(self, recipe: Recipe) -> None:
        self._recipe, self._columns = recipe, recipe.columns
        self._moment = recipe.form.reader()
        self._wide = [(probe, at, self._value(probe)) for probe, at in recipe.columns.probes.items()]
        self._target = self._value("dome") if recipe.columns.target is not None else None
        self._readers: dict[tuple[Probe, Unit], Callable[[Any], float | None]] = {}

    def read(self, cells: Cells) -> Measured | None:
        """None for a row that is no reading at all. Raises CellWrong when the whole row is of no use."""
        if self._columns.named:
            return self._one(cells)
        at_ms = self._at(cells)
        values: dict[Probe, float] = {}
        wrong: list[str] = []
        for probe, at, value in self._wide:
            try:
                if (degrees := value(cells[at])) is not None:
                    values[probe] = degrees
            except CellWrong as error:
                wrong.append(f"{self._recipe.names[at]}: {error}")
        return Measured(at_ms, values, tuple(wrong))

    def target(self, cells: Cells) -> float | None:
        """The set temperature in a row [°F], where the file has one."""
        if self._target is None:
            return None
        try:
            return self._target(cells[self._columns.target])
        except CellWrong:
            return None

    def _at(self, cells: Cells) -> int:
        time = self._columns.time
        return self._moment(cells[time[0]] if len(time) == 1 else f"{cells[time[0]]} {cells[time[1]]}")

    def _value(self, probe: Probe) -> Callable[[Any], float | None]:
        recipe = self._recipe
        guess = recipe.units.get(probe) or next(iter(recipe.units.values()))
        return reader(guess.unit, recipe.words.missing, recipe.bounds[probe])

    def _one(self, cells: Cells) -> Measured | None:
        """A row of a long file."""
        columns = self._columns
        if columns.kind is not None and str(cells[columns.kind]).strip() not in ("", READING_KIND):
            return None
        probe = self._recipe.probes.get(str(cells[columns.named[0]]).strip())
        if probe is None:
            return None
        unit = self._recipe.units[""].unit
        if columns.unit is not None:
            unit = self._recipe.words.unit(str(cells[columns.unit])) or unit
        if (probe, unit) not in self._readers:
            self._readers[probe, unit] = reader(unit, self._recipe.words.missing, self._recipe.bounds[probe])
        value = self._readers[probe, unit](cells[columns.named[1]])
        return Measured(self._at(cells), {} if value is None else {probe: value})


def sampled(rows: Iterable[Row], limit: int = SAMPLE_ROWS) -> tuple[list[Cells], int]:
    """Rows spread evenly over a file, in its order, at most `limit`; and how many rows there are."""
    kept: list[Cells] = []
    stride, count = 1, 0
    for count, (_, cells) in enumerate(rows, 1):
        if (count - 1) % stride == 0:
            kept.append(cells)
            if len(kept) > limit:
                kept, stride = kept[::2], stride * 2
    return kept, count


def make_recipe(names: Sequence[str], rows: Sequence[Cells], words: ColumnWords, wishes: Wishes, now_ms: int) -> Recipe:
    """Raises Undecided for what the file leaves open, FileRefused when it cannot be read."""
    if not rows:
        raise FileRefused("the file has a header and no readings", "", "name the file the thermometer writes")
    sample = Sample(tuple(names), tuple(zip(*rows, strict=True)))
    columns = find_columns(sample, words, wishes.columns)
    times = _time_cells(sample, columns.time)
    form = time_form(times, [word for at in columns.time for word in plain(names[at])], now_ms, wishes.zone,
                     wishes.start, wishes.times, words.month)
    probes = _probes_named(sample, columns, words)
    return Recipe(tuple(names), columns, form, _units(sample, columns, words, wishes, probes), words, probes)


def _time_cells(sample: Sample, time: tuple[int, ...]) -> list[Any]:
    if len(time) == 1:
        return list(sample.columns[time[0]])
    return [f"{day} {clock}" for day, clock in zip(*(sample.columns[at] for at in time), strict=True)]


def _probes_named(sample: Sample, columns: Columns, words: ColumnWords) -> dict[str, Probe]:
    if not columns.named:
        return {}
    names = {str(cell).strip() for cell in sample.filled(columns.named[0])}
    found = {name: probe for name in sorted(names) if (probe := role_of_probe(name, words))}
    if not found:
        raise FileRefused(f"the probes are called {', '.join(sorted(names))[:120]}", "none of that says what it measures",
                          "export it with a column for each probe, and name them with --columns")
    return found


def _units(sample: Sample, columns: Columns, words: ColumnWords, wishes: Wishes,
           probes: Mapping[str, Probe]) -> dict[str, UnitGuess]:
    """By probe; under "" for a long file."""
    places = dict(columns.probes) or {"": columns.named[1]}
    if wishes.units:
        return {probe: UnitGuess(wishes.units, "you said so") for probe in places}
    found = {probe: unit for probe, at in places.items()
             if (unit := _unit_said(sample, columns, words, at))}
    if found:
        common = next(iter(found.values()))
        return {probe: UnitGuess(found.get(probe, common), "it is written in the file") for probe in places}
    guess = guess_unit(_figures(sample, columns, probes))
    return {probe: guess for probe in places}


def _unit_said(sample: Sample, columns: Columns, words: ColumnWords, at: int) -> Unit | None:
    if columns.unit is not None and (said := [u for u in map(words.unit, map(str, sample.filled(columns.unit))) if u]):
        return max(set(said), key=said.count)
    return unit_of(words, sample.names[at], sample.filled(at))


def _figures(sample: Sample, columns: Columns, probes: Mapping[str, Probe]) -> dict[str, list[float]]:
    """The sample's figures by probe."""
    if not columns.named:
        return {probe: sample.figures(at) for probe, at in columns.probes.items()}
    pairs = [(probes.get(str(name).strip(), ""), value) for name, value in
             zip(*(sample.columns[at] for at in columns.named), strict=True)]
    pairs.sort(key=lambda pair: pair[0])
    return {probe: Sample(("",), (tuple(value for _, value in group),)).figures(0)
            for probe, group in groupby(pairs, key=lambda pair: pair[0]) if probe in PROBES}
