"""The picture of a vent chart: everything in it is named, drawn apart, and lies where the chart says."""

import pytest

from advisor.ownchart.chart import chart_of
from advisor.ownchart.pastcook import Moved, PastCook
from advisor.pictures import canvas
from advisor.pictures.chart_picture import FRACTIONS, chart_picture

VENTS = (Moved(-400.0, "bottom", 0.25), Moved(-400.0, "top", 0.12))
COOK = PastCook(tuple((float(at), 275.0) for at in range(0, 121, 10)), VENTS, lit_min=-400.0)


@pytest.fixture
def axes(rulebook):
    trade = rulebook.catalogue.vent_chart
    return chart_picture(chart_of([COOK], trade), trade, "Vent chart of porch", "It rests on 1 cook.").axes[0]


def test_every_part_is_named(axes):
    assert [text.get_text() for text in axes.get_legend().get_texts()] == [
        "holds it four days out of five", "your cooker", "the trade's chart", "steady stretches of your cooks"]


def test_scales_are_in_both_degrees_and_in_fractions(axes):
    assert axes.get_xlabel() == "dome [°F]" and axes.child_axes[0].get_xlabel() == "°C"
    assert [label.get_text() for label in axes.get_yticklabels()] == list(FRACTIONS.values())


def test_stretches_lie_by_the_curve(axes, rulebook):
    curve, _, seen = axes.get_lines()
    assert seen.get_linestyle() == "None" and seen.get_marker() == canvas.SECOND.marker
    middle = dict(zip(curve.get_xdata(), curve.get_ydata(), strict=True))[275.0]
    assert all(abs(dome - 275.0) < 5.0 and 0.7 < opening / middle < 1.4
               for dome, opening in zip(seen.get_xdata(), seen.get_ydata(), strict=True))


def test_without_cooks_no_stretches_are_named(rulebook):
    trade = rulebook.catalogue.vent_chart
    empty = chart_picture(chart_of([], trade), trade, "Vent chart of your cooker", "No cook.").axes[0]
    named = [text.get_text() for text in empty.get_legend().get_texts()]
    assert len(named) == 3 and "your cooker" not in named
