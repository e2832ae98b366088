"""`drafthand export` and `drafthand cooks`: what the logbook holds, to another program and to a person."""

import argparse
import os
from collections.abc import Iterator
from datetime import tzinfo
from pathlib import Path

from advisor.errors import CommandRefused, DrafthandError, LogbookError
from advisor.importing.export import Form, exported
from advisor.importing.telling import moment_words, span_words
from advisor.logbook.reader import Reader
from advisor.logbook.records import Cook
from advisor.terminal import door
from advisor.terminal.books import chosen, open_book
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.ready import settings
from advisor.units import f_to_c


def run(call: argparse.Namespace) -> int:
    number = chosen(call)
    if call.all and number is not None or call.csv and call.json:
        raise CommandRefused("the two rule each other out", "", "say N or --all, --csv or --json")
    form: Form = "json" if call.json else "csv"
    with open_book(call.data).reading() as book:
        cooks = list(book.cooks()) if call.all else [_cook(book, number)]
        pieces = exported(book, cooks, form)
        if call.out:
            _write(Path(call.out), pieces)
            door.say(f"{len(cooks)} {'cook' if len(cooks) == 1 else 'cooks'} written to {call.out}.")
        else:
            for piece in pieces:
                door.send(piece.rstrip("\n"))
    return 0


def _cook(book: Reader, number: int | None) -> Cook:
    """The cook of that number, or the last one. Raises LogbookError."""
    if number is not None:
        return book.cook(number)
    if not (cooks := book.cooks()):
        raise LogbookError("the logbook holds no cook yet", "", "talk with drafthand through one, or import a file")
    return cooks[-1]


def _write(path: Path, pieces: Iterator[str]) -> None:
    """Written beside and moved into place: nobody finds half of it under that name."""
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        with beside.open("w", encoding="utf-8", newline="") as file:
            file.writelines(pieces)
        beside.replace(path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise DrafthandError(f"{path} cannot be written ({(error.strerror or str(error)).lower()})", "the export is not done",
                             "name another file with --out") from None


def run_cooks(call: argparse.Namespace) -> int:
    """A line for each cook."""
    with open_book(call.data).reading() as book:
        cooks = book.cooks()
    celsius = settings().units.temperature == "C"
    lines = [cook_line(cook, celsius) for cook in cooks] or ["The logbook holds no cook yet."]
    door.say(laid_out("\n".join(lines), columns(), {}))
    return 0


def cook_line(cook: Cook, celsius: bool, zone: tzinfo | None = None) -> str:
    """Number, when, for how long, on which cooker, at what target, how it ended."""
    parts = [f"{cook.id:>4}", f"{moment_words(cook.started_ms, zone):<17}",
             f"{span_words(cook.ended_ms - cook.started_ms) if cook.ended_ms is not None else 'going on':<11}"]
    target = "" if cook.target_f is None else f"{f_to_c(cook.target_f):.0f} °C" if celsius else f"{cook.target_f:.0f} °F"
    return "  ".join([*parts, f"{target:<6}", cook.cooker, cook.outcome or ""]).rstrip()
