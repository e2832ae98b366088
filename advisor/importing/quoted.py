"""Lines of CSV to whole records: a quoted cell may run over several lines, and a quote that nobody closed costs one line."""

import csv
from collections.abc import Iterable, Iterator
from typing import Any

from advisor.importing.refusals import Wrong

MOST_LINES_A_RECORD = 40    # a quote that is not closed within so many lines is a slip, not a long text


class Records:
    """Lines joined where a quoted cell runs over several, one record at a time; `line`: where the last one began."""

    def __init__(self, lines: Iterable[str], wrong: Wrong, first: int) -> None:
        self._lines, self._wrong = iter(lines), wrong
        self._next, self.line = first, first - 1
        self._waiting: list[str] = []

    def __iter__(self) -> Iterator[str]:
        for line in self._fed():
            self.line = self._next
            self._next += 1
            if line.count('"') % 2 == 0:
                yield line if "\0" not in line else line.replace("\0", "")
            elif (record := self._joined(line)) is not None:
                yield record

    def _fed(self) -> Iterator[str]:
        while True:
            line = self._waiting.pop(0) if self._waiting else next(self._lines, None)
            if line is None:
                return
            yield line

    def _joined(self, line: str) -> str | None:
        parts = [line]
        fed = self._fed()
        while len(parts) < MOST_LINES_A_RECORD and (more := next(fed, None)) is not None:
            parts.append(more)
            if more.count('"') % 2:
                self._next += len(parts) - 1
                return "".join(parts)
        self._waiting = parts[1:] + self._waiting
        self._wrong.add(self.line, "a quote is opened and not closed")
        return None


def whole(reader: Iterator[list[Any]], records: Records, wrong: Wrong) -> Iterator[list[Any]]:
    """The reader's rows; a record it refuses is one wrong row."""
    while True:
        try:
            yield next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            wrong.add(records.line, f"it cannot be taken apart ({error})")
