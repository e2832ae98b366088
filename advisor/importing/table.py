"""A file of readings as rows of cells with their line numbers, whatever its encoding, delimiter and header.

CSV with comma, semicolon, tab or bar, JSON lines, or one JSON list. It knows nothing of what the cells mean.
"""

import csv
import io
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO, Literal

from advisor.importing.quoted import Records, whole
from advisor.importing.refusals import FileRefused, Wrong

Cells = list[Any]
Row = tuple[int, Cells]


@dataclass(frozen=True)
class Shape:
    """How a file is written. names: the header's, or made up; skip: lines before the first row of data."""

    form: Literal["csv", "json lines", "json"]
    encoding: str
    delimiter: str = ","
    names: tuple[str, ...] = ()
    skip: int = 0

    def cells(self, lines: Iterable[str], wrong: Wrong, first: int = 1) -> Iterator[Row]:
        """Rows of data among `lines`, the first of which is line `first` of the file."""
        if self.form == "csv":
            return self._csv(lines, wrong, first)
        return self._json(lines, wrong, first)

    def _csv(self, lines: Iterable[str], wrong: Wrong, first: int) -> Iterator[Row]:
        records = Records(lines, wrong, first)
        width = len(self.names)
        reader = csv.reader(records, delimiter=self.delimiter, skipinitialspace=self.delimiter != "\t")
        for cells in whole(reader, records, wrong):
            if records.line <= self.skip or not any(cells) or tuple(cells) == self.names:
                continue  # a header in the middle: the logger was started again
            if len(cells) > width and any(cells[width:]):
                wrong.add(records.line, f"it has {len(cells)} cells where the others have {width}")
            else:
                yield records.line, cells + [""] * (width - len(cells))

    def _json(self, lines: Iterable[str], wrong: Wrong, first: int) -> Iterator[Row]:
        for line, text in enumerate(lines, first):
            if not text.strip():
                continue
            try:
                found = flat(json.loads(text))
            except (ValueError, RecursionError) as error:
                wrong.add(line, f"it is no JSON object ({getattr(error, 'msg', error)})")
                continue
            yield line, [found.get(name, "") for name in self.names]


def open_lines(path: Path, encoding: str) -> Iterator[str]:
    """The lines of a file, bad bytes replaced. Raises FileRefused."""
    with opened(path) as raw, io.TextIOWrapper(raw, encoding, errors="replace", newline="") as text:
        yield from text


def rows(path: Path, shape: Shape, wrong: Wrong) -> Iterator[Row]:
    """Every row of data of a file. Raises FileRefused."""
    if shape.form == "json":
        for number, item in enumerate(json_list(path, shape.encoding), 1):
            found = flat(item)
            yield number, [found.get(name, "") for name in shape.names]
    else:
        yield from shape.cells(open_lines(path, shape.encoding), wrong)


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


def json_list(path: Path, encoding: str) -> list[Any]:
    with opened(path) as raw:
        try:
            found = json.loads(raw.read().decode(encoding, "replace"))
        except (ValueError, RecursionError) as error:
            raise FileRefused(f"{path} is no JSON ({error})"[:200], "its list is not whole", "export it again") from None
    return [item for item in found if isinstance(item, dict)]


def opened(path: Path) -> BinaryIO:
    try:
        return path.open("rb")
    except OSError as error:
        raise FileRefused(f"{path} cannot be read ({(error.strerror or str(error)).lower()})", "",
                          "check its name and that it may be read") from None
