"""How a file is written, told from its beginning: encoding, delimiter, header, lines of JSON."""

import codecs
import csv
import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from advisor.importing.refusals import FileRefused
from advisor.importing.table import Cells, Shape, flat, json_list, opened

DELIMITERS = "\t;|,"        # the comma last: in files of the others it stands inside numbers
HEAD_BYTES = 65536          # read to tell the encoding and the shape
HEAD_LINES = 200
CONSISTENT = 0.8            # share of lines that have to agree on the number of cells
MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


def shape_of(path: Path) -> Shape:
    """Raises FileRefused when the file is missing, empty or no text."""
    with opened(path) as raw:
        head = raw.read(HEAD_BYTES)
    encoding = encoding_of(head)
    text = head.decode(encoding, "replace")
    if text.lstrip().startswith("["):
        return Shape("json", encoding, names=_names_of(json_list(path, encoding)[:HEAD_LINES]))
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
        return Shape("csv", encoding, delimiter, tuple(f"column {n}" for n in range(1, width + 1)))
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
