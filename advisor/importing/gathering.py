"""A whole file to readings in memory, sorted by time, and cut into cooks where nothing was read for hours."""

from array import array
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import median

from advisor.importing.columns import PROBES, Probe
from advisor.importing.moments import DAY, HOUR
from advisor.importing.recipe import Recipe
from advisor.importing.refusals import CellWrong, Wrong
from advisor.importing.table import Row

APART_MS = 3 * HOUR     # nothing read for so long: another cook. Judgement: a wrapped cooker may be left for two hours.
EVERY_ROWS = 20_000     # how often progress is told
TARGET_EVERY = 50       # rows between two looks at the set temperature, which hardly ever changes
AHEAD_MS = DAY          # a reading so far in the future is a slip
BEFORE_LOGGERS_MS = 315_532_800_000  # 1980: an earlier time is a clock that was never set


@dataclass
class Readings:
    """One probe's readings as columns: at_ms (UTC), value_f."""

    at_ms: array = field(default_factory=lambda: array("q"))
    value_f: array = field(default_factory=lambda: array("d"))

    def __len__(self) -> int:
        return len(self.at_ms)

    def sort(self) -> None:
        """By time; of readings at the same moment the last one stays."""
        times = self.at_ms
        if all(earlier < later for earlier, later in pairwise(times)):
            return
        latest = dict(zip(times, self.value_f, strict=True))
        ordered = sorted(latest)
        self.at_ms, self.value_f = array("q", ordered), array("d", (latest[at] for at in ordered))

    def between(self, start_ms: int, end_ms: int) -> "Readings":
        first, last = bisect_left(self.at_ms, start_ms), bisect_left(self.at_ms, end_ms + 1)
        return Readings(self.at_ms[first:last], self.value_f[first:last])


@dataclass
class Gathered:
    """by_probe: what the file holds; target_f: the commonest set temperature, where it has one."""

    by_probe: dict[Probe, Readings]
    wrong: Wrong
    target_f: float | None = None

    def count(self) -> int:
        return sum(map(len, self.by_probe.values()))


def gather(rows: Iterable[Row], recipe: Recipe, wrong: Wrong, now_ms: int,
           tell: Callable[[int], None] = lambda rows: None) -> Gathered:
    """Every row read. tell: called now and then with the number of rows done so far."""
    reader = recipe.row_reader()
    into = {probe: Readings() for probe in PROBES}
    adders = {probe: (readings.at_ms.append, readings.value_f.append) for probe, readings in into.items()}
    targets: list[float] = []
    latest = now_ms + AHEAD_MS
    for done, (line, cells) in enumerate(rows, 1):
        if done % EVERY_ROWS == 0:
            tell(done)
        if done % TARGET_EVERY == 1 and (target := reader.target(cells)) is not None:
            targets.append(target)
        try:
            found = reader.read(cells)
        except CellWrong as error:
            wrong.add(line, str(error))
            continue
        if found is None:
            continue
        if not BEFORE_LOGGERS_MS <= found.at_ms <= latest:
            wrong.add(line, "its time lies in the future" if found.at_ms > latest else "its time lies before 1980")
            continue
        for why in found.wrong:
            wrong.add(line, why)
        for probe, value in found.values.items():
            add_time, add_value = adders[probe]
            add_time(found.at_ms)
            add_value(value)
    for readings in into.values():
        readings.sort()
    by_probe = {probe: readings for probe, readings in into.items() if len(readings)}
    return Gathered(by_probe, wrong, median(targets) if targets else None)


def spans(gathered: Gathered) -> list[tuple[int, int]]:
    """(start, end) in ms of each cook: stretches with no gap of APART_MS in all probes together."""
    found: list[list[int]] = []
    for at in _all_times(gathered):
        if found and at - found[-1][1] < APART_MS:
            found[-1][1] = at
        else:
            found.append([at, at])
    return [(start, end) for start, end in found]


def _all_times(gathered: Gathered) -> Iterator[int]:
    columns = [readings.at_ms for readings in gathered.by_probe.values()]
    if len(columns) == 1:
        return iter(columns[0])
    return iter(sorted(set().union(*columns)))
