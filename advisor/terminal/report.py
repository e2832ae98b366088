"""`drafthand report`: a finished cook as a page, as a picture, or as a few lines."""

import argparse
import sys
import warnings
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.errors import DrafthandError
from advisor.rulebook.loader import rules_folder
from advisor.terminal import door
from advisor.terminal.books import chosen, open_book, settings
from advisor.terminal.layout import columns, laid_out
from advisor.vocabulary import read_vocabulary
from advisor.wording import Wording

if TYPE_CHECKING:
    from advisor.report.report import Report

LONG_FROM = 20_000  # readings; a shorter cook is reported before a line of progress would be read


def run(call: argparse.Namespace) -> int:
    from advisor.report.gather import last_finished, spoken_units, story_of
    from advisor.report.lessons import read_lessons
    from advisor.report.report import report_on

    with open_book(call.data).reading() as book:
        cook = last_finished(book) if (number := chosen(call)) is None else book.cook(number)
        story, spoken = story_of(book, cook), spoken_units(book, cook)
    folder = rules_folder()
    wording = Wording(read_vocabulary(folder / "vocabulary.yaml"), settings().units.said(spoken))
    progress = _Progress(len(story.dome) + len(story.meat))
    progress.tell("working out the figures")
    report = report_on(story, read_lessons(folder), wording)
    if call.html:
        progress.tell("drawing the page")
        _write_page(report, Path(call.html))
    if call.png:
        progress.tell("drawing the picture")
        _write_picture(report, Path(call.png))
    if not (call.html or call.png):
        from advisor.report.plain import text
        door.say(laid_out(text(report), columns(), {}))
    return 0


class _Progress:
    """Says what is being done where a person waits for it: on standard error, at a terminal, for a long cook."""

    def __init__(self, readings: int) -> None:
        self._speaks = readings >= LONG_FROM and door.is_terminal(sys.stderr)
        self.tell(f"{readings:,} readings")

    def tell(self, what: str) -> None:
        if self._speaks:
            door.complain(f"{what} ...")


def _write_page(report: "Report", path: Path) -> None:
    from advisor.report.page import page
    try:
        path.write_text(page(report), encoding="utf-8")
    except OSError as error:
        raise DrafthandError(f"{path} cannot be written ({error.strerror})", "the report is lost",
                             "name another file with --html") from None
    door.say(f"The report on cook {report.story.number} is written to {path}.")


def _write_picture(report: "Report", path: Path) -> None:
    from advisor.pictures.canvas import write
    from advisor.report.scene import picture_of
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "Glyph")  # a sign the font lacks becomes a box; no cook can mend that
        write(picture_of(report), path, report.speech.title())
    door.say(f"The picture of cook {report.story.number} is written to {path}.")
