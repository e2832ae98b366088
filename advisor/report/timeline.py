"""What happened during a cook, line by line: moves, lid, advice, steps done, notes, in the order of time."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from advisor.report import hands
from advisor.report.story import Advised, CookStory, VentMove
from advisor.wording import minutes, opening

MOST_STEPS = 3  # of one advice; the rest is counted


@dataclass(frozen=True, slots=True)
class Happening:
    """One line: at_min, the kind in a word ("vents 3" carries the number on the curve), what happened."""

    at_min: float
    kind: str
    says: str


def happenings(story: CookStory) -> list[Happening]:
    """Everything that was told of the cook, oldest first. What was advised twice in a row is told once."""
    told = [*_advice(story.advice), *_vents(story), *_lids(story), *_food(story)]
    told += [Happening(deed.at_min, "done", deed.says) for deed in story.deeds]
    told += [Happening(note.at_min, "note", note.words) for note in story.notes]
    return sorted(told, key=lambda one: one.at_min)


def _vents(story: CookStory) -> Iterator[Happening]:
    made = hands.made(story.moves)
    for number, moves in enumerate(hands.visits(made), 1):
        yield Happening(moves[0].at_min, f"vents {number}", "; ".join(map(_move, moves)))
    told = [move for move in story.moves if move.was is None and move not in made]
    for minute, moves in groupby(told, lambda move: move.at_min):
        yield Happening(minute, "vents", f"told: {'; '.join(map(_move, moves))}")


def _move(move: VentMove) -> str:
    was = f", was {_stood(move.was)}" if move.was is not None else ""
    return f"{move.vent} {_stood(move.opening)}{was}"


def _stood(fraction: float) -> str:
    """An opening in words, and as a share where two of them may share their words."""
    share = f" ({100 * fraction:.0f}%)" if 0 < fraction < 1 else ""
    return f"{opening(fraction)}{share}"


def _lids(story: CookStory) -> Iterator[Happening]:
    for lid in story.lids:
        lasted = f" for {_lasted(lid.lasted_min)}" if lid.lasted_min is not None else ""
        yield Happening(lid.at_min, "lid", f"{'burped' if lid.burp else 'lifted'}{lasted}")


def _lasted(length: float) -> str:
    return f"{60 * length:.0f} seconds" if length < 0.95 else minutes(length)


def _advice(advice: tuple[Advised, ...]) -> Iterator[Happening]:
    """Each danger stands where it was first told; whoever reads the steps again must meet it."""
    before: tuple[str, ...] = ()
    warned: set[str] = set()
    for one in advice:
        for danger in (danger for danger in one.dangers if danger not in warned):
            yield Happening(one.at_min, "danger", danger)
        if one.steps and one.steps != before:
            yield Happening(one.at_min, "advice", _steps(one.steps))
        before, warned = one.steps, warned | set(one.dangers)


def _steps(steps: tuple[str, ...]) -> str:
    more = len(steps) - MOST_STEPS
    return " ".join(steps[:MOST_STEPS]) + (f" (and {more} more)" if more > 0 else "")


def _food(story: CookStory) -> Iterator[Happening]:
    for minute, words in ((story.food_on_min, "on"), (story.food_off_min, "off")):
        if minute is not None:
            yield Happening(minute, "food", words)
