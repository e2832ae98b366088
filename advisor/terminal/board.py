"""All cookers at once: a table where there is room, two lines each where there is not, sentences for a screen reader."""

import textwrap
from collections.abc import Iterator, Sequence

from advisor.course import in_short
from advisor.rulebook.catalogue import Catalogue
from advisor.standing import Standing
from advisor.terminal.timers import cooker_name, countdown
from advisor.wording import Wording, minutes

HEADS = ("cooker", "dome", "want", "way", "left")
WIDTHS = (7, 7, 6, 8, 5)
ONE_ROW = 76  # columns from which the step stands in the row of its cooker
UNKNOWN, OVER = "-", "over"
UNNAMED = "fire"  # as the prompt has it


def board(standings: Sequence[Standing], here: str, width: int, sentences: bool, catalogue: Catalogue,
          wording: Wording) -> str:
    """here: the cooker in hand, marked with *. sentences: for a screen reader; a screen too narrow for a table has them too."""
    if sentences or width < len(_row(HEADS)):
        return "\n".join(_sentence(standing, catalogue, wording) for standing in standings)
    rows = [_row(HEADS) + ("  in hand" if width >= ONE_ROW else "")]
    for standing in standings:
        rows += _rows(standing, standing.cooker == here, width, catalogue, wording)
    return "\n".join(rows)


def _rows(standing: Standing, here: bool, width: int, catalogue: Catalogue, wording: Wording) -> Iterator[str]:
    name = standing.cooker or UNNAMED
    left = UNKNOWN if standing.left_min is None else OVER if standing.due else countdown(standing.left_min)
    row = _row((f"{name[:WIDTHS[0] - 1]}{'*' if here else ''}", _dome(standing, wording),
                _degrees(standing.target_f, wording), standing.way or UNKNOWN, left))
    doing = _doing(standing, catalogue)
    if width >= ONE_ROW:
        yield f"{row}  {doing}"
    else:
        yield row.rstrip()
        yield from textwrap.wrap(doing, width, initial_indent="  ", subsequent_indent="  ")


def _row(cells: Sequence[str]) -> str:
    """Names to the left, figures to the right."""
    name, *rest = zip(cells, WIDTHS, strict=True)
    return " ".join([name[0].ljust(name[1]), *(cell.rjust(room) for cell, room in rest)])


def _dome(standing: Standing, wording: Wording) -> str:
    """The reading, or the distance from the target where no more was told."""
    if standing.dome_f is None and standing.over_f is not None:
        return f"{'+' if standing.over_f >= 0 else '-'}{wording.difference(abs(standing.over_f))}"
    return _degrees(standing.dome_f, wording)


def _degrees(fahrenheit: float | None, wording: Wording) -> str:
    return UNKNOWN if fahrenheit is None else wording.temperature(fahrenheit)


def _doing(standing: Standing, catalogue: Catalogue) -> str:
    phrases = catalogue.phrases
    danger = f"{phrases['bar_danger']} - " if standing.endangered else ""
    steps = standing.in_hand or ((standing.then,) if standing.then else ())
    if standing.hands_off:
        return danger + phrases["bar_hands_off"]
    return danger + (in_short(steps, catalogue) if steps else phrases["bar_ask"])


def _sentence(standing: Standing, catalogue: Catalogue, wording: Wording) -> str:
    name = cooker_name(standing.cooker, catalogue) if standing.cooker else "The cooker"
    dome = f"dome {_dome(standing, wording)}" if standing.over_f is not None or standing.dome_f is not None else "dome not known"
    target = f", target {_degrees(standing.target_f, wording)}" if standing.target_f is not None else ""
    way = f", {standing.way}" if standing.way else ""
    left = ("" if standing.left_min is None else f" {catalogue.phrases['bar_over'].capitalize()}." if standing.due
            else f" {minutes(max(1.0, standing.left_min))} left.")
    doing = _doing(standing, catalogue)
    return f"{name}: {dome}{target}{way}. {doing[:1].upper()}{doing[1:]}.{left}"
