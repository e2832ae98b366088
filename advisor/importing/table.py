"""A file of readings as rows of cells with their line numbers, whatever its encoding, delimiter and header.

CSV with comma, semicolon, tab or bar, JSON lines, or one JSON list. It knows nothing of what the cells mean.
"""

import codecs
import csv
import io
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, BinaryIO, Literal

from advisor.importing.refusals import FileRefused

Cells = list[Any]
Row = tuple[int, Cells]
DELIMITERS = "\t;|,"        # the comma last: in files of the others it stands inside numbers
HEAD_BYTES = 65536          # read to tell the encoding and the shape
HEAD_LINES = 200
MOST_LINES_A_RECORD = 40    # a quote that is not closed within so many lines is a slip, not a long text
CONSISTENT = 0.8            # share of lines that have to agree on the number of cells
MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


@dataclass(frozen=True)
class Shape:
    """How a file is written. names: the header's, or made up; skip: lines before the first row of data."""

    form: Literal["csv", "json lines", "json"]
    encoding: str
    delimiter: str = ","
    names: tuple[str, ...] = ()
    has_header: bool = True
    skip: int = 0

    def cells(self, lines: Iterable[str], wrong: "Wrong", first: int = 1) -> Iterator[Row]:
        """Rows of data among `lines`, the first of which is line `first` of the file."""
        if self.form == "csv":
            return self._csv(lines, wrong, first)
        return self._json(lines, wrong, first)

    def _csv(self, lines: Iterable[str], wrong: "Wrong", first: int) -> Iterator[Row]:
        records = _Records(lines, wrong, first)
        width = len(self.names)
        reader = csv.reader(records, delimiter=self.delimiter, skipinitialspace=self.delimiter != "\t")
        for cells in _whole(reader, records, wrong):
            if records.line <= self.skip or not any(cells) or tuple(cells) == self.names:
                continue  # a header in the middle: the logger was started again
            if len(cells) > width and any(cells[width:]):
                wrong.add(records.line, f"it has {len(cells)} cells where the others have {width}")
            else:
                yield records.line, cells + [""] * (width - len(cells))

    def _json(self, lines: Iterable[str], wrong: "Wrong", first: int) -> Iterator[Row]:
        for line, text in enumerate(lines, first):
            if not text.strip():
                continue
            try:
                found = flat(json.loads(text))
            except (ValueError, RecursionError) as error:
                wrong.add(line, f"it is no JSON object ({getattr(error, 'msg', error)})")
                continue
            yield line, [found.get(name, "") for name in self.names]


@dataclass
class Wrong:
    """Rows and cells that could not be taken: the first of them in words, all of them counted."""

    shown_at_most: int = 20
    shown: list[tuple[int, str]] = field(default_factory=list)
    count: int = 0

    def add(self, line: int, why: str) -> None:
        self.count += 1
        if len(self.shown) < self.shown_at_most:
            self.shown.append((line, why))


class _Records:
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


def _whole(reader: Iterator[Cells], records: _Records, wrong: Wrong) -> Iterator[Cells]:
    """The reader's rows; a record it refuses is one wrong row."""
    while True:
        try:
            yield next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            wrong.add(records.line, f"it cannot be taken apart ({error})")


def open_lines(path: Path, encoding: str) -> Iterator[str]:
    """The lines of a file, bad bytes replaced. Raises FileRefused."""
    with _opened(path) as raw, io.TextIOWrapper(raw, encoding, errors="replace", newline="") as text:
        yield from text


def rows(path: Path, shape: Shape, wrong: Wrong) -> Iterator[Row]:
    """Every row of data of a file. Raises FileRefused."""
    if shape.form == "json":
        for number, item in enumerate(_json_list(path, shape.encoding), 1):
            found = flat(item)
            yield number, [found.get(name, "") for name in shape.names]
    else:
        yield from shape.cells(open_lines(path, shape.encoding), wrong)


def shape_of(path: Path) -> Shape:
    """Raises FileRefused when the file is missing, empty or no text."""
    with _opened(path) as raw:
        head = raw.read(HEAD_BYTES)
    encoding = encoding_of(head)
    text = head.decode(encoding, "replace")
    if text.lstrip().startswith("["):
        return Shape("json", encoding, names=_names_of(_json_list(path, encoding)[:HEAD_LINES]))
    whole = text.splitlines(keepends=True)
    return shape_of_lines(whole[:-1] if len(head) == HEAD_BYTES and len(whole) > 1 else whole, encoding, str(path))


def shape_of_lines(lines: list[str], encoding: str = "utf-8", where: str = "the input") -> Shape:
    """The shape shown by the first lines. Raises FileRefused when they show none."""
    if not any(line.strip() for line in lines):
        raise FileRefused(f"{where} is empty", "there are no readings in it", "name the file the thermometer writes")
    if any("\0" in line for line in lines[:5]):
        raise FileRefused(f"{where} is no text", "readings are looked for in CSV or JSON lines", "export it as CSV")
    if next(line for line in lines if line.strip()).lstrip().startswith("{"):
        return Shape("json lines", encoding, names=_names_of(_objects(lines[:HEAD_LINES])))
    return _csv_shape(lines[:HEAD_LINES], encoding)


def encoding_of(head: bytes) -> str:
    """By its mark; else UTF-8 where it is that, else the commonest of the old ones."""
    for mark, encoding in MARKS:
        if head.startswith(mark):
            return encoding
    try:
        codecs.getincrementaldecoder("utf-8")().decode(head)
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8"


def flat(item: Any, prefix: str = "") -> dict[str, Any]:
    """Nested objects and lists with dotted names: {"t": {"pit": 250}} -> {"t.pit": 250}. Raises ValueError."""
    if not prefix and not isinstance(item, dict):
        raise ValueError(f"{str(item)[:20]!r} is no object")
    pairs = item.items() if isinstance(item, dict) else enumerate(item, 1)
    found: dict[str, Any] = {}
    for key, value in pairs:
        name = f"{prefix}{key}"
        found |= flat(value, f"{name}.") if isinstance(value, dict | list) else {name: "" if value is None else value}
    return found


def is_number(cell: Any) -> bool:
    """Whether a cell begins with a figure, as a reading or a time does."""
    text = str(cell).strip().lstrip("+-")
    return bool(text) and text[0].isdigit()


def _csv_shape(lines: list[str], encoding: str) -> Shape:
    delimiter = _delimiter(lines)
    split = list(csv.reader(lines, delimiter=delimiter, skipinitialspace=delimiter != "\t"))
    width = _commonest([len(cells) for cells in split if any(cells)])
    first = next((at for at, cells in enumerate(split) if len(cells) >= width and _is_data(cells)), len(split))
    header = next((at for at in reversed(range(first)) if any(split[at])), None)
    if header is None:
        return Shape("csv", encoding, delimiter, tuple(f"column {n}" for n in range(1, width + 1)), False)
    names = [cell.strip() for cell in split[header]]
    names += [f"column {n}" for n in range(len(names) + 1, width + 1)]
    return Shape("csv", encoding, delimiter, tuple(names), skip=header + 1)


def _is_data(cells: Cells) -> bool:
    """A row of data has a figure in its first cells; a header has words."""
    filled = [cell for cell in cells if cell.strip()]
    return bool(filled) and sum(map(is_number, filled)) * 3 >= len(filled)


def _delimiter(lines: list[str]) -> str:
    for delimiter in DELIMITERS:
        counts = [len(cells) for cells in csv.reader(lines, delimiter=delimiter) if any(cells)]
        width = _commonest(counts)
        if width > 1 and counts.count(width) >= CONSISTENT * len(counts):
            return delimiter
    return max(",\t;|", key=lambda delimiter: sum(line.count(delimiter) for line in lines))


def _commonest(counts: list[int]) -> int:
    return max(set(counts), key=lambda count: (counts.count(count), count), default=1)


def _objects(lines: list[str]) -> list[Any]:
    found = []
    for line in lines:
        try:
            found.append(json.loads(line))
        except (ValueError, RecursionError):
            continue
    return found


def _names_of(items: Iterable[Any]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for item in items if isinstance(item, dict) for name in flat(item)))


def _json_list(path: Path, encoding: str) -> list[Any]:
    with _opened(path) as raw:
        try:
            found = json.loads(raw.read().decode(encoding, "replace"))
        except (ValueError, RecursionError) as error:
            raise FileRefused(f"{path} is no JSON ({error})"[:200], "its list is not whole", "export it again") from None
    return [item for item in found if isinstance(item, dict)]


def _opened(path: Path) -> BinaryIO:
    try:
        return path.open("rb")
    except OSError as error:
        raise FileRefused(f"{path} cannot be read ({(error.strerror or str(error)).lower()})", "",
                          "check its name and that it may be read") from None
