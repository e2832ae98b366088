"""Charcoal used: what was told goes first, the model says that it estimates, and some cooks tell nothing."""

import pytest
from cook_stories import BY_HAND, EMPTY

from advisor.report.fuel import FuelUsed, estimated, fuel_used, told
from advisor.report.story import FuelTold
from advisor.thermal import burnt


def test_a_level_before_and_after():
    assert told(FuelTold(0.75, 0.5)) == FuelUsed("told", share=0.25)
    used = told(FuelTold(0.8, 0.5, put_in_kg=4.0))              # three of eight parts of 4 kg
    assert used.kg == pytest.approx(1.5)


@pytest.mark.parametrize("fuel", [FuelTold(), FuelTold(0.8), FuelTold(0.5, 0.5), FuelTold(0.5, 0.8), FuelTold(put_in_kg=4.0)])
def test_half_a_telling_is_none(fuel):
    assert told(fuel) is None


def test_the_model_gives_a_range_and_says_that_it_estimates():
    flat = ((0, 70), (45, 250), *((minute, 250) for minute in range(60, 300, 20)))
    used = estimated(flat, "large")
    assert used.how == "estimated" and used.share is None
    assert 0.1 < used.low_kg < used.kg < used.high_kg < 4.0


def test_longer_and_hotter_takes_more():
    def kg(minutes, dome):
        return estimated(((0, 70), (45, dome), *((m, dome) for m in range(60, minutes, 20))), "large").kg

    assert kg(200, 250) < kg(400, 250) and kg(200, 250) < kg(200, 400)


def test_halving_the_steps_moves_the_sum_by_far_less_than_its_range(monkeypatch):
    curve = ((0, 70), (45, 250), *((minute, 250 + 5 * (minute % 10 == 0)) for minute in range(50, 300, 5)))
    low, before, high = burnt.burnt_along(curve, "large")
    monkeypatch.setattr(burnt, "FASTEST_S", burnt.FASTEST_S / 2)
    monkeypatch.setattr(burnt, "SLOWEST_S", burnt.SLOWEST_S / 2)
    assert abs(burnt.burnt_along(curve, "large")[1] - before) < min(0.08 * before, (high - low) / 4)


def test_a_curve_that_no_fire_goes_along_is_not_estimated():
    assert burnt.burnt_along(((0, 70), (1, 700), (2, 70), (60, 700)), "large") is None


def test_too_little_curve_is_not_known():
    assert estimated(((0, 70), (20, 200)), "large") is None
    assert estimated(((0, 70), (50, 250), (500, 250)), "large") is None    # a night of which nobody knows
    assert fuel_used(EMPTY, EMPTY.dome) is None


def test_what_was_told_goes_before_what_is_worked_out():
    assert fuel_used(BY_HAND, BY_HAND.dome).how == "told"
