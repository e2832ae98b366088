"""A vent chart in words: its title, what it rests on, how sure each line is. Texts come from the rule base."""

from __future__ import annotations

from collections.abc import Mapping

from advisor.outlook.lore import lore, part_of
from advisor.ownchart.chart import Chart, Line
from advisor.ownchart.upkeep import Kept

SURE, FAIR = 2.0, 3.5  # high over low of a range: the vent can be set by it, it can be begun with; wider is a guess
EIGHTHS, SIXTEENTHS = 8, 16  # of an inch that a cook can tell apart on a vent: the finer ones below HALF_IN
HALF_IN = 0.5


def title(cooker: str, phrases: Mapping[str, str]) -> str:
    return phrases["chart_title"].replace("{cooker}", cooker) if cooker else phrases["chart_title_unnamed"]


def rests_on(chart: Chart, phrases: Mapping[str, str]) -> str:
    """What the chart was learned from, and how much one day differs from another."""
    if not chart.cooks:
        return phrases["chart_rests_on_none"]
    words = {"{cooks}": _counted(chart.cooks, "cook"),
             "{stretches}": _counted(sum(map(len, chart.stretches)), "steady stretch", "es")}
    text = phrases["chart_rests_on"]
    for name, said in words.items():
        text = text.replace(name, said)
    return text


def remarks(kept: Kept, phrases: Mapping[str, str]) -> list[str]:
    """What is worth telling besides the figures."""
    if not kept.chart.cooks:
        return [phrases["chart_defers"]]
    days = [phrases["chart_days"].replace("{part}", part_of(kept.chart.day_sd))] if kept.chart.cooks > 1 else []
    return [*lore(kept.profile, phrases), *days, phrases["chart_defers"]]


def how_sure(line: Line) -> str:
    ratio = line.high / line.low
    return "sure" if ratio <= SURE else "fair" if ratio <= FAIR else "guess"


def in_inches(opening: float, travel_in: float) -> str:
    """An opening on a vent of so much travel, to the nearest part a cook can tell apart: "3/8", "1 1/4"."""
    over = SIXTEENTHS if opening * travel_in < HALF_IN else EIGHTHS
    whole, rest = divmod(max(1, round(opening * travel_in * over)), over)
    while rest and rest % 2 == 0:
        rest, over = rest // 2, over // 2
    return f"{whole or ''} {f'{rest}/{over}' if rest else ''}".strip()


def _counted(count: int, word: str, plural: str = "s") -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}{plural}"
