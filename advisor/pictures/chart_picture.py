"""The vent chart of one's own as a picture: curve, range, the stretches it was learned from, and the trade's chart beside it."""

from __future__ import annotations

from textwrap import fill

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FixedLocator, NullLocator

from advisor.ownchart.chart import Chart
from advisor.ownchart.draught import opening_of
from advisor.pictures import canvas
from advisor.rulebook.catalogue import VentChart
from advisor.ventchart import SMALLEST_GAP, opening_for

FROM_F, TO_F, TICK_F = 200.0, 450.0, 25.0
FRACTIONS = {1 / 32: "1/32", 1 / 16: "1/16", 1 / 8: "1/8", 1 / 4: "1/4", 1 / 2: "1/2", 1.0: "wide open"}
LINE_CHARACTERS = 88


def chart_picture(chart: Chart, trade: VentChart, title: str, rests_on: str) -> Figure:
    """A sheet for screen and paper. title, rests_on: texts as the table shows them."""
    with canvas.style():
        figure = canvas.sheet(8.0, 6.0)
        figure.suptitle(title, x=0.02, ha="left", fontsize=15, fontweight="bold")
        axes = figure.add_subplot()
        _range(axes, chart)
        _trade(axes, trade)
        _stretches(axes, chart)
        _scales(axes)
        axes.legend(loc="lower right", frameon=True, framealpha=1.0, edgecolor=canvas.PAPER)
        figure.supxlabel(fill(rests_on, LINE_CHARACTERS), x=0.02, ha="left", fontsize=9.5)
    return figure


def _range(axes: Axes, chart: Chart) -> None:
    domes = [line.dome_f for line in chart.lines]
    low, high = ([getattr(line, end) for line in chart.lines] for end in ("low", "high"))
    axes.fill_between(domes, low, high, facecolor="#dbe9f4", edgecolor=canvas.FIRST.colour, hatch="....", linewidth=0.8,
                      label="holds it four days out of five")
    axes.plot(domes, [line.opening for line in chart.lines], **canvas.FIRST.line(),
              label="your cooker" if chart.cooks else "any cooker, halfway between trade and physics")


def _trade(axes: Axes, trade: VentChart) -> None:
    domes = [FROM_F + 5.0 * step for step in range(int((TO_F - FROM_F) / 5.0) + 1)]
    axes.plot(domes, [opening_for(trade, dome) for dome in domes], **canvas.PLAIN.line(), label="the trade's chart")


def _stretches(axes: Axes, chart: Chart) -> None:
    seen = [(stretch.dome_f, max(SMALLEST_GAP, opening_of(stretch.level))) for cook in chart.stretches for stretch in cook]
    if seen:
        axes.plot(*zip(*seen, strict=True), **canvas.SECOND.points(), label="steady stretches of your cooks")


def _scales(axes: Axes) -> None:
    axes.set_yscale("log")
    axes.set_xlim(FROM_F, TO_F)
    axes.set_xticks([FROM_F + TICK_F * step for step in range(int((TO_F - FROM_F) / TICK_F) + 1)])
    axes.set_ylim(SMALLEST_GAP * 0.9, 1.15)
    axes.yaxis.set_major_locator(FixedLocator(list(FRACTIONS)))
    axes.yaxis.set_minor_locator(NullLocator())
    axes.set_yticks(list(FRACTIONS), list(FRACTIONS.values()))
    axes.set_xlabel("dome [°F]")
    axes.set_ylabel("top vent, part of its full travel")
    canvas.celsius_beside(axes, "x")
