"""The figures of a whole cook, worked by hand (see the curve in cook_stories.BY_HAND), and of cooks that tell little."""

from dataclasses import replace

import pytest
from cook_stories import BARE, BY_HAND, EMPTY

from advisor.report.figures import figures_of
from advisor.report.known_figures import FIGURES

WORKED = {
    "cooking_min": 200.5, "put_out_at": 200.5, "readings": 10, "longest_gap_min": 40,
    "reached_at": 42.5,                        # 235 on the way from 230 to 250
    "in_band_share": 111.25 / 157.5,           # 42.5-53.75, 85-135, 150-200, of 42.5-200
    "longest_in_band_min": 50, "longest_in_band_at": 85, "over_f": 40, "over_at": 60, "under_f": 30, "under_at": 140,
    "swings": 2, "moves": 6, "visits": 4, "close_visits": 1, "close_visits_at": 55, "pushed_across": 0, "overdone": 0,   # closed to a quarter at 55, but below 235 only 80 minutes later
   
    "wide_near_target_min": 15.75, "wide_near_target_f": 215, "untouched_in_band_min": 50,
    "lids": 1, "burps": 1, "lid_up_min": 2.5, "dip_f": 30, "chased_lids": 0, "steady_before_food_min": 17.5,
    "core_highest_f": 190, "stall_min": 70, "stall_at": 120, "stall_f": 150, "visits_in_stall": 1, "rested_min": 10,
    "fuel_share": 0.3, "fuel_kg": 1.5, "fuel_left_share": 0.5, "advised": 1, "steps_done": 1, "target_f": 250,
}


@pytest.mark.parametrize("name", WORKED)
def test_a_figure_as_worked_by_hand(name):
    assert figures_of(BY_HAND)[name] == pytest.approx(WORKED[name])


def test_every_figure_is_on_the_list():
    for story in (BY_HAND, BARE, EMPTY, replace(BY_HAND, food_on_min=10.0, target_f=300.0)):
        assert set(figures_of(story)) <= set(FIGURES)


def test_without_a_target_nothing_is_said_of_holding():
    assert not {"reached_at", "over_f", "in_band_share", "swings"} & set(figures_of(BARE))


def test_food_that_went_on_too_early():
    found = figures_of(replace(BY_HAND, food_on_min=10.0))
    assert found["food_before_target_min"] == 32.5 and "steady_before_food_min" not in found


def test_food_that_went_on_over_the_target_was_not_early():
    found = figures_of(replace(BY_HAND, dome=((0, 350), (50, 250), (90, 250)), food_on_min=10.0))
    assert not {"food_before_target_min", "steady_before_food_min"} & set(found)


def test_a_cook_that_came_down_from_above_was_over_from_the_start():
    story = replace(BY_HAND, dome=((0, 350), (50, 250), (90, 250)), moves=())
    assert (figures_of(story)["over_f"], figures_of(story)["over_at"]) == (100, 0)
    assert "under_f" not in figures_of(story)


def test_an_empty_cook_has_only_counts():
    assert {name for name, value in figures_of(EMPTY).items() if value} == set()
