"""`drafthand import FILE`: what a thermometer wrote into the logbook, said and asked before anything is kept."""

import argparse
import os
import sys
import textwrap
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import tzinfo
from pathlib import Path

from advisor.clock import EpochClock
from advisor.errors import DrafthandError
from advisor.importing import telling
from advisor.importing.gathering import Gathered, gather
from advisor.importing.keeping import KeptCook, keep
from advisor.importing.recipe import Recipe, Wishes, make_recipe, sampled
from advisor.importing.refusals import FileRefused, Undecided, Wrong
from advisor.importing.shapes import shape_of
from advisor.importing.table import Cells, Shape, rows
from advisor.importing.wishing import wish, wishes
from advisor.importing.words import ColumnWords, read_column_words
from advisor.logbook.opening import Logbook
from advisor.logbook.records import MS_A_MINUTE
from advisor.terminal import door
from advisor.terminal.books import open_book, settings
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.scale import target_f

LONG_FROM = 100_000      # rows; anything shorter is done before a bar would be seen
LINES_OF_PROGRESS = 10


def run(call: argparse.Namespace) -> int:
    path, said, target = Path(call.file), wishes(vars(call)), target_f(call.target)
    shape, words = shape_of(path), read_column_words()
    sample, count = sampled(rows(path, shape, Wrong()))
    now_ms = round(EpochClock().minutes() * MS_A_MINUTE)
    recipe = agreed(Source(path.name, shape, sample, count), words, said, now_ms)
    logbook = open_book(call.data)
    with progress("reading", count) as tell:
        wrong = Wrong()
        gathered = gather(rows(path, shape, wrong), recipe, wrong, now_ms, tell)
    if target is not None:
        gathered.target_f = target
    report(gathered.wrong, kept(gathered, logbook, call.cooker or ""), recipe.form.zone)
    return 0


class Source:
    """A file as far as it has to be known to talk about it."""

    def __init__(self, name: str, shape: Shape, sample: list[Cells], count: int) -> None:
        self.name, self.shape, self.sample, self.count = name, shape, sample, count

    def recipe(self, words: ColumnWords, said: Wishes, now_ms: int) -> Recipe:
        return make_recipe(self.shape.names, self.sample, words, said, now_ms)

    def title(self) -> str:
        between = {"\t": "tabs", ";": "semicolons", ",": "commas", "|": "bars"}[self.shape.delimiter]
        return f"{self.name}: {self.count:,} rows, {between if self.shape.form == 'csv' else self.shape.form}"


def agreed(source: Source, words: ColumnWords, said: Wishes, now_ms: int) -> Recipe:
    """The recipe as guessed and said, or as the person at the terminal put it right. Raises Undecided, FileRefused."""
    asks = door.is_terminal(sys.stdin) and door.is_terminal(sys.stdout)
    before: Wishes | None = None
    while True:
        try:
            recipe = source.recipe(words, said, now_ms)
        except Undecided as open_point:
            if not asks:
                raise
            before, said = said, _settled(open_point, said)
            continue
        except FileRefused as refusal:
            if before is None:
                raise
            show([str(refusal)])
            before, said = None, before
            continue
        show([source.title(), *telling.taken_for(recipe)])
        if not asks or not (answer := _asked("Enter takes it so; dome=NAME, units=C and the like change it; no stops: ")):
            return recipe
        before, said = said, _changed(said, answer)


def _settled(open_point: Undecided, said: Wishes) -> Wishes:
    """The person's answer to what the file leaves open, asked until it can be used."""
    key = open_point.option.split()[0].removeprefix("--")
    show([f"{open_point.seen[:1].upper()}{open_point.seen[1:]}."])
    choices = " or ".join(word for word, _ in open_point.choices) or open_point.option.partition(" ")[2]
    return _wished(said, key, _asked(f"{key}, {choices}: "))


def _changed(said: Wishes, answer: str) -> Wishes:
    if answer.casefold() in ("n", "no", "stop", "q", "quit"):
        raise FileRefused("stopped", "nothing was kept", "")
    key, _, words = answer.partition("=")
    option = key.strip().removeprefix("--")
    return _wished(said, option, words) if option in ("units", "zone", "start", "times") else _wished(said, "columns", answer)


def _wished(said: Wishes, key: str, words: str) -> Wishes:
    try:
        return wish(said, key, words)
    except DrafthandError as error:
        show([str(error)])
        return said


def _asked(question: str) -> str:
    from prompt_toolkit import prompt
    *above, last = laid_out(question.strip(), columns(), {}).split("\n")
    if above:
        door.say("\n".join(above))
    try:
        return prompt(f"{last.strip()} ").strip()
    except EOFError:
        raise FileRefused("stopped", "nothing was kept", "") from None


def kept(gathered: Gathered, logbook: Logbook, cooker: str) -> list[KeptCook]:
    """Raises FileRefused when stopped on the way: what was committed by then stays."""
    if not gathered.count():
        raise FileRefused("no row of the file holds a reading that can be used", _first_wrong(gathered.wrong),
                          "name the columns with --columns, or export it another way")
    try:
        with progress("keeping", gathered.count()) as tell:
            return keep(gathered, logbook, cooker, tell)
    except KeyboardInterrupt:
        raise FileRefused("stopped from the keyboard", "what was kept so far stays",
                          "the same command again completes it, nothing is kept twice") from None


def _first_wrong(wrong: Wrong) -> str:
    return f"line {wrong.shown[0][0]}: {wrong.shown[0][1]}" if wrong.shown else ""


def report(wrong: Wrong, cooks: list[KeptCook], zone: tzinfo | None) -> None:
    show([*telling.wrong_lines(wrong), *(telling.kept_line(cook, zone) for cook in cooks)])


def show(lines: Iterable[str]) -> None:
    """Lines for a person, as wide as the terminal is."""
    width = columns()
    door.say("\n".join(line if width is None else _hung(line, width) for line in lines))


def _hung(line: str, width: int) -> str:
    """Broken at blanks; what does not fit stands further in than the line begins."""
    inside = " " * (len(line) - len(line.lstrip()) + 2)
    return textwrap.fill(line, width, subsequent_indent=inside, break_long_words=False, break_on_hyphens=False)


@contextmanager
def progress(what: str, total: int) -> Iterator[Callable[[int], None]]:
    """Something to call with the number done: a bar at a terminal, plain lines elsewhere and for screen readers."""
    if total < LONG_FROM:
        yield lambda done: None
    elif door.is_terminal(sys.stderr) and not settings().screen_reader and os.environ.get("TERM") != "dumb":
        from prompt_toolkit.shortcuts import ProgressBar
        with ProgressBar(title=what) as bar:
            counter = bar(total=total)

            def tell(done: int) -> None:
                counter.items_completed = done
                bar.invalidate()

            yield tell
    else:
        yield _told_in_lines(what, total)


def _told_in_lines(what: str, total: int) -> Callable[[int], None]:
    told = 0

    def tell(done: int) -> None:
        nonlocal told
        if (part := done * LINES_OF_PROGRESS // total) > told:
            told = part
            door.complain(f"{what}: {done:,} of {total:,}")

    return tell
