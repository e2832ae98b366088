"""Everything kept of a cook as lines of CSV or JSON, a line for each thing that happened; `import` reads them back."""

import csv
import io
import json
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from typing import Any, Literal

from advisor.importing.recipe import READING_KIND
from advisor.logbook.reader import Reader
from advisor.logbook.records import Cook

Form = Literal["csv", "json"]
# probe, value and unit belong to readings; a vent move has its vent in words and its openings in value and before.
FIELDS = ("cook", "cooker", "time", "kind", "probe", "value", "unit", "before", "words")
LINES_AT_ONCE = 2000


def exported(book: Reader, cooks: Iterable[Cook], form: Form) -> Iterator[str]:
    """Text in pieces, whole lines each."""
    if form == "csv":
        yield ",".join(FIELDS) + "\n"
    for cook in cooks:
        for piece in _pieces(happenings(book, cook), LINES_AT_ONCE):
            yield _as_csv(piece) if form == "csv" else _as_json(piece)


def happenings(book: Reader, cook: Cook) -> list[dict[str, Any]]:
    """Everything that is kept of a cook, by time; each with all FIELDS, advice with its parts besides."""
    number = cook.id
    found = [(reading.at_ms, {"kind": READING_KIND, "probe": reading.probe, "value": reading.value_f, "unit": "F",
                              "words": reading.origin}) for reading in book.readings(number)]
    found += [(move.at_ms, {"kind": "move", "value": move.opening, "before": move.was, "words": move.vent})
              for move in book.moves(number)]
    found += [(at_ms, {"kind": "lid"}) for at_ms in book.lids(number)]
    found += [(deed.at_ms, {"kind": "deed", "words": f"{deed.act}: {deed.says}"}) for deed in book.deeds(number)]
    found += [(advice.at_ms, {"kind": "advice", "words": advice.text, "steps": advice.steps, "cautions": advice.cautions,
                              "forecast": advice.forecast}) for advice in book.advice(number)]
    found += [(note.at_ms, {"kind": "note", "words": note.words}) for note in book.notes(number)]
    if cook.target_f is not None:
        found.append((cook.started_ms, {"kind": "target", "value": cook.target_f, "unit": "F"}))
    if cook.ended_ms is not None:
        found.append((cook.ended_ms, {"kind": "end", "words": cook.outcome}))
    found.sort(key=lambda pair: pair[0])
    return [{"cook": number, "cooker": cook.cooker, "time": iso(at_ms), **one} for at_ms, one in found]


def iso(at_ms: int) -> str:
    """A moment with milliseconds, UTC."""
    whole, part = divmod(at_ms, 1000)
    return f"{datetime.fromtimestamp(whole, UTC):%Y-%m-%dT%H:%M:%S}.{part:03}Z"


def _as_csv(rows: list[dict[str, Any]]) -> str:
    text = io.StringIO()
    writer = csv.DictWriter(text, FIELDS, restval="", extrasaction="ignore", lineterminator="\n")
    writer.writerows(rows)
    return text.getvalue()


def _as_json(rows: list[dict[str, Any]]) -> str:
    return "".join(json.dumps(dict.fromkeys(FIELDS) | row, ensure_ascii=False) + "\n" for row in rows)


def _pieces(rows: list[dict[str, Any]], size: int) -> Iterator[list[dict[str, Any]]]:
    for at in range(0, len(rows), size):
        yield rows[at:at + size]
