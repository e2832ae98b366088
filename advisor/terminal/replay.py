"""`drafthand replay` and `drafthand accept`: demo conversations played again, and their expectations rewritten."""

import argparse
from pathlib import Path

from advisor.errors import TranscriptError
from advisor.rulebook.loader import read_rulebook
from advisor.terminal import door
from advisor.transcripts.accept import accept
from advisor.transcripts.format import read_page
from advisor.transcripts.replay import Played, play

DONE, FAILED = 0, 1
DEMOS = "transcripts_demo"


def run(call: argparse.Namespace) -> int:
    paths = [Path(file) for file in call.files] or demo_pages()
    rulebook = read_rulebook()
    played = [play(read_page(path), rulebook) for path in paths]
    for page in played:
        door.say(_line(page))
    changed = sum(not page.as_written for page in played)
    door.say(f"{len(played)} pages played, {changed} came out differently.")
    return FAILED if changed else DONE


def run_accept(call: argparse.Namespace) -> int:
    difference = accept(Path(call.file), read_rulebook())
    door.say(difference or f"{call.file} comes out as it is written; nothing was changed.")
    return DONE


def demo_pages() -> list[Path]:
    """The pages in transcripts_demo/ here or in the checkout. Raises TranscriptError when there are none."""
    checkout = Path(__file__).parent.parent.parent
    for folder in (Path(DEMOS), checkout / DEMOS):
        if pages := sorted(folder.glob("*.md")):
            return pages
    raise TranscriptError(f"there is no folder {DEMOS} here", "the demo conversations lie in the checkout",
                          "change to the checkout or name the pages")


def _line(page: Played) -> str:
    if page.as_written:
        return f"as written  {page.page.path} ({len(page.page.turns)} turns)"
    return f"DIFFERENT   {page.page.path}\n{page.difference()}\n"
