"""The line below the prompt: which cooker, how long still, what is in hand, what comes next. Cut to the width it has."""

from collections.abc import Sequence

from advisor.course import in_short
from advisor.rulebook.catalogue import Catalogue
from advisor.standing import Standing
from advisor.terminal.timers import countdown

CUT = "..."
OVER = countdown(0)  # of another cooker's timer, where the width is short


def toolbar(standings: Sequence[Standing], here: str, width: int, catalogue: Catalogue) -> str:
    """One line of at most `width`: the cooker in hand, then what still fits of the next step and the other timers."""
    shown = next((standing for standing in standings if standing.cooker == here), None)
    others = [standing for standing in standings if standing.cooker != here]
    first = _in_hand(shown, catalogue, bool(others)) if shown else catalogue.phrases["bar_free"]
    after = _after(shown, catalogue) if shown else ""
    beside, short = _beside(others, catalogue), _beside(others, catalogue, OVER)
    lines = (f"{first} {after}  {beside}", f"{first}  {beside}", f"{first}  {short}", f"{first} {after}" if not others else "")
    line = next((line for line in lines if line.strip() and len(line.rstrip()) <= width), None)
    return " ".join(line.split("\n")).rstrip() if line else _cut(first, short, width)


def _in_hand(standing: Standing, catalogue: Catalogue, several: bool) -> str:
    """ "left 4:05 burp the lid"."""
    phrases = catalogue.phrases
    name = [standing.cooker] if standing.cooker and several else []
    danger = [phrases["bar_danger"]] if standing.endangered else []
    if standing.left_min is None:
        return " ".join([*name, *danger, phrases["bar_free"]])
    doing = in_short(standing.in_hand, catalogue) if standing.in_hand else phrases["bar_ask"] if not standing.then else ""
    doing = phrases["bar_hands_off"] if standing.hands_off else doing
    if standing.due:
        return " ".join([*name, *danger, phrases["bar_over"], *(["-", doing] if standing.in_hand else [])])
    return " ".join([*name, *danger, countdown(standing.left_min), doing]).rstrip()


def _after(standing: Standing, catalogue: Catalogue) -> str:
    if standing.then is None:
        return ""
    return catalogue.phrases["bar_then"].format(step=in_short([standing.then], catalogue))


def _beside(others: Sequence[Standing], catalogue: Catalogue, over: str | None = None) -> str:
    """The other cookers' timers, the one that is due first. over: what is said of one that has run out."""
    waiting = sorted((standing for standing in others if standing.left_min is not None), key=lambda s: s.left_min or 0.0)
    return "  ".join(_other(standing, catalogue, over or catalogue.phrases["bar_over"]) for standing in waiting)


def _other(standing: Standing, catalogue: Catalogue, over: str) -> str:
    danger = f"{catalogue.phrases['bar_danger']} " if standing.endangered else ""
    clock = over if standing.due else countdown(standing.left_min or 0.0)
    return f"[{standing.cooker or catalogue.phrases['unnamed_cooker']} {danger}{clock}]"


def _cut(first: str, beside: str, width: int) -> str:
    """The step in hand cut off, the other timers kept as long as they take no more than half."""
    room = width - len(beside) - 2 if beside and len(beside) <= width // 2 else width
    if len(first) > room:
        first = first[:max(0, room - len(CUT))].rstrip() + CUT
    return f"{first}  {beside}" if room < width else first
