"""Chart and model joined: by precision, never past what either says, and the chart alone when the model fails."""

from dataclasses import replace

import numpy as np
import pytest

from advisor.airway import Airway
from advisor.changes import Move
from advisor.facts import Fact
from advisor.looks import move_in
from advisor.outlook.sizing import joined
from advisor.placing import settings
from advisor.response import SHAPES
from advisor.situation import Situation
from advisor.thermal.hold import Hold
from advisor.ventchart import Holding

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


def steering(top, over, prior=TRADE, readings=(), moves=(), target=250.0, foreseen=None):
    """Openings by name with a dome so far over a target, the bottom at an inch, at minute 60."""
    said = {"target_f": target, "dome_f": target + over, "over_f": over, "top_vent": top, "bottom_vent": 0.25}
    known = {name: Fact(name, float(value), "said", 60.0) for name, value in said.items()}
    readings = tuple(readings) or ((60.0, target + over),)
    told, openings = settings(known, prior, Situation(readings=readings, moves=tuple(moves)), 60.0, foreseen)
    return told, openings


@pytest.mark.parametrize("off", [-60, -20, 20, 60])
def test_what_a_setting_shows_pulls_the_right_way(off):
    """A dome that rested there for an hour with the top as the chart has it: the chart is off, by that way."""
    rested = [(float(minute), 250.0 + off) for minute in range(0, 61, 10)]
    _, openings = steering(0.22, off, readings=rested)
    assert (openings["hold_top"] < 0.22) == (off > 0)
    assert (openings["aim_top"] < 0.22) == (off > 0)


def test_a_sure_chart_is_pulled_less():
    rested = [(float(minute), 290.0) for minute in range(0, 61, 10)]
    sure, unsure = (steering(0.22, 40, Holding(0.22, sd), rested)[1]["hold_top"] for sd in (0.1, 0.5))
    assert unsure < sure < 0.22


def test_settings_for_less_heat_are_smaller():
    _, openings = steering(0.22, 0)
    assert 0.02 <= openings["settle_top"] < openings["hold_top"] < openings["warm_top"] <= 1.0


@pytest.mark.parametrize(("top", "ahead"), [(1.0, 70), (0.3, 25), (0.05, -40), (0.02, -70)])
def test_one_move_is_bounded_and_never_shuts_the_vent(top, ahead):
    rested = [(float(minute), 250.0 + ahead) for minute in range(0, 61, 10)]
    _, openings = steering(top, ahead, readings=rested)
    assert 0.02 <= openings["aim_top"] <= 1.0 and 0.03 <= openings.get("aim_bottom", 0.25) <= 1.0
    assert (openings["aim_top"] < top) == (ahead > 0)


def test_what_the_model_foresees_pulls_the_move_its_way():
    rested = [(float(minute), 290.0) for minute in range(0, 61, 10)]
    less, none, more = (steering(0.22, 40, readings=rested, foreseen=change)[1]["aim_top"] for change in (-2.0, None, 0.0))
    assert less < none < more < 0.22


@pytest.mark.parametrize("minutes_ago, most", [(6.0, 0.3), (10.0, 0.5), (30.0, 9.0)])
def test_a_move_against_the_last_one_waits_for_what_that_one_still_does(minutes_ago, most):
    """Seen in closed loop: closed down, fallen 100 °F in six minutes, and opened to four times as much at the target."""
    at = 60.0 - minutes_ago
    readings = [(at - 1.0, 345.0), (at, 345.0), (60.0, 248.0)]
    _, openings = steering(0.1, -2, readings=readings, moves=[Move(at, top=0.1, top_was=0.5)])
    way, last = Airway().way, Airway().way(0.1, 0.25) - Airway().way(0.5, 0.25)
    assert way(openings["aim_top"], 0.25) - way(0.1, 0.25) <= most * abs(last) + 0.01


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("swing", [12.0, 25.0, 80.0])
def test_small_moves_settle_whether_the_cooker_answers_little_or_much_early_or_late(shape, swing):
    """°F for each e-fold of air. From 30 °F over, read every 8 minutes to 5 °F, moved only when it is said to be due."""
    way, top, done, readings, moves, offs = Airway().way, 0.3, [], [], [], []
    for minute in np.arange(60.0 - 200.0, 61.0, 8.0):
        off = 30.0 + swing * sum(change * shape(minute - at) for at, change in done)
        offs.append(off)
        readings.append((minute, 250.0 + 5 * round(off / 5)))
        shifted = [(at - minute + 60.0, dome) for at, dome in readings]
        past = [replace(move, at_min=move.at_min - minute + 60.0) for move in moves]
        told, openings = steering(top, readings[-1][1] - 250.0, readings=shifted, moves=past)
        ago = minute - moves[-1].at_min if moves else None
        if move_in(told.ahead[1], len([one for one in moves if minute - one.at_min <= 120.0]), ago) == 0.0:
            done.append((minute, way(openings["aim_top"], 0.25) - way(top, 0.25)))
            moves.append(Move(minute, top=openings["aim_top"], top_was=top))
            top = openings["aim_top"]
    assert max(abs(off) for off in offs[-6:]) <= 15.0
    assert min(offs) >= -20.0
