"""Gathered readings into the logbook, chunk by chunk, each a transaction: what was committed stays, and a second run
completes it without adding anything twice.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from advisor.importing.gathering import APART_MS, Gathered, spans
from advisor.logbook.opening import Logbook
from advisor.logbook.records import Cook, Probe
from advisor.logbook.writer import Writer

CHUNK = 20_000   # readings a transaction: a fifth of a second's work, so little is lost and little is waited for

Kept = tuple[int, Probe, float]


@dataclass(frozen=True)
class KeptCook:
    """One cook of the file. new: readings that were not in the logbook yet, of `count`."""

    id: int
    started_ms: int
    ended_ms: int
    begun: bool
    new: int
    count: int


def keep(gathered: Gathered, logbook: Logbook, cooker: str, tell: Callable[[int], None] = lambda done: None) -> list[KeptCook]:
    """tell: called after every chunk with the number of readings done. Raises LogbookUnwritable."""
    kept, done = [], 0
    for start, end in spans(gathered):
        with logbook.writing() as book:
            found = _cook_at(book, cooker, start, end)
            number = found.id if found else book.begin_cook(cooker, start, gathered.target_f)
            if found and found.target_f is None and gathered.target_f is not None:
                book.aim(number, gathered.target_f)
            book.stretch_cook(number, start, end)  # at once, so that a run cut short finds it again
        new = count = 0
        for chunk in _chunks(gathered, start, end):
            new += logbook.add_readings(number, chunk, "imported")
            count += len(chunk)
            tell(done + count)
        done += count
        kept.append(KeptCook(number, start, end, found is None, new, count))
    return kept


def _cook_at(book: Writer, cooker: str, start_ms: int, end_ms: int) -> Cook | None:
    """The cook of that cooker that lies over the span, or so near that one file would hold both as one."""
    near = [(_apart(cook, _end_of(book, cook), start_ms, end_ms), cook) for cook in book.cooks(cooker)]
    near = [(apart, cook) for apart, cook in near if apart < APART_MS]
    return min(near, key=lambda pair: pair[0])[1] if near else None


def _apart(cook: Cook, cook_end_ms: int, start_ms: int, end_ms: int) -> int:
    """Milliseconds between a cook and a span; below zero by as much as they overlap."""
    return max(cook.started_ms, start_ms) - min(cook_end_ms, end_ms)


def _end_of(book: Writer, cook: Cook) -> int:
    """When a cook ended, or when one that goes on was last heard of."""
    if cook.ended_ms is not None:
        return cook.ended_ms
    return max((reading.at_ms for reading in book.readings(cook.id)), default=cook.started_ms)


def _chunks(gathered: Gathered, start_ms: int, end_ms: int) -> Iterator[list[Kept]]:
    for probe, readings in gathered.by_probe.items():
        part = readings.between(start_ms, end_ms)
        for at in range(0, len(part), CHUNK):
            yield [(at_ms, probe, value) for at_ms, value in zip(part.at_ms[at:at + CHUNK], part.value_f[at:at + CHUNK],
                                                                 strict=True)]
