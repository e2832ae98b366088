"""Chart and model joined: by precision, never past what either says, and the chart alone when the model fails."""

from math import log

import pytest

from advisor.answered import Answer, Shown, answer
from advisor.outlook.sizing import joined
from advisor.thermal.hold import Hold
from advisor.ventchart import Holding, aimed, nudged

TRADE = Holding(0.22, 0.5)


def hold(likely, low=None, high=None, share=1.0):
    return Hold(275.0, 0.25, likely, low or likely * 0.8, high or likely * 1.25, share)


def test_the_joined_setting_lies_between_chart_and_model():
    opening, spread = joined(TRADE, hold(0.12), doubted=False)
    assert 0.12 < opening < 0.22 and spread < 0.3


def test_a_doubted_model_counts_for_less():
    assert joined(TRADE, hold(0.12), doubted=True)[0] > joined(TRADE, hold(0.12), doubted=False)[0]


def test_a_model_that_cannot_hold_the_target_leaves_the_chart_alone():
    assert joined(TRADE, hold(0.12, share=0.1), doubted=False) == (0.22, 0.5)


def test_a_chart_that_rests_on_many_cooks_gives_way_less():
    own = Holding(0.22, 0.15, cooks=12)
    assert joined(own, hold(0.12), doubted=False)[0] > joined(TRADE, hold(0.12), doubted=False)[0]


def test_what_was_learned_from_the_same_cooks_is_not_counted_twice():
    own = Holding(0.22, 0.3, cooks=12)
    assert joined(own, hold(0.2), doubted=False)[1] == pytest.approx(0.3)
    assert joined(Holding(0.22, 0.3), hold(0.2), doubted=False)[1] < 0.25


@pytest.mark.parametrize("off", [-60, -20, 20, 60])
def test_what_a_setting_shows_pulls_the_right_way(off):
    alone = answer(0.2, 0.5, []).hold
    shown = answer(0.2, 0.5, [Shown(0.2, off)]).hold
    assert (shown < alone) == (off > 0)


@pytest.mark.parametrize(("slope", "gain"), [(35.0, 1 / 35.0), (200.0, 1 / 200.0)])
def test_two_settings_show_how_strongly_the_cooker_answers(slope, gain):
    """slope: °F for a unit of the opening's logarithm."""
    shown = [Shown(0.15 * factor, slope * log(factor), 4.0) for factor in (0.6, 0.8, 1.3)]
    found = answer(0.3, 0.5, shown)
    assert found.hold == pytest.approx(0.15, rel=0.12)
    assert abs(log(found.gain / gain)) < 0.5 * abs(log(0.009 / gain))


@pytest.mark.parametrize(("top", "ahead"), [(1.0, 100), (0.3, 25), (0.05, -40), (0.0, -100)])
def test_one_move_is_bounded_and_never_shuts_the_vent(top, ahead):
    moved = aimed(top, ahead, Answer(0.15))
    assert 0.02 <= moved <= 1.0
    assert (moved < top) == (ahead > 0)


@pytest.mark.parametrize(("slope", "shows"), [(40.0, 0.8), (54.0, 0.8), (200.0, 0.45)])
def test_small_moves_settle_whether_the_cooker_answers_little_or_much(slope, shows):
    """°F for a unit of the opening's logarithm; a part of it shows by the next look. 54 along the chart, 200 in the model."""
    top, dome, before, shown = 0.3, 30.0, 30.0, []
    for _ in range(14):
        ahead = dome + (dome - before)
        shown = [*shown, Shown(top, ahead, 6.0 + abs(dome - before))][-5:]
        if abs(dome) > 8 and dome * ahead > 0:
            top = nudged(top, ahead, answer(0.2, 0.5, shown))
        rest = slope * log(top / 0.3) + 30.0
        before, dome = dome, dome + shows * (rest - dome)
    assert abs(dome) <= 15.0
