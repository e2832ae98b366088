"""Each figure of a curve against an example worked by hand; band edges for a target of 250 are 235 and 265."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.report import curve

UP_OVER_UNDER = ((0, 200), (40, 240), (50, 290), (100, 240), (110, 220), (130, 250))


def test_the_band_is_fifteen_degrees_to_either_side():
    assert curve.band(250) == (235, 265)


def test_it_is_reached_where_the_line_enters_the_band():
    assert curve.reached_min(UP_OVER_UNDER, 250) == 35          # one degree a minute: 200 + 35
    assert curve.reached_min(((0, 300), (35, 230)), 250) == pytest.approx(17.5)   # two a minute down to 265
    assert curve.reached_min(((0, 200), (40, 230)), 250) is None
    assert curve.reached_min(((0, 200), (300, 250)), 250) == 300  # nothing known in between, then read within


def test_it_arrives_where_it_meets_the_target_itself():
    assert curve.arrived_min(UP_OVER_UNDER, 250) == 42          # 240, then five degrees a minute
    assert curve.arrived_min(((0, 200), (40, 230), (50, 210)), 250) == 40
    assert curve.arrived_min((), 250) is None


def test_spans_within_a_band_join_where_they_touch():
    # 235 at 35, 265 at 45; down one a minute: 265 at 75, 235 at 102.5; up 1.5 a minute: 235 at 120
    spans = curve.spans_between(UP_OVER_UNDER, 235, 265)
    assert [tuple(round(edge, 6) for edge in span) for span in spans] == [(35, 45), (75, 102.5), (120, 130)]


def test_share_in_the_band():
    after = curve.since(UP_OVER_UNDER, 35)                      # 95 minutes, of which 10 + 27.5 + 10
    assert curve.share_in_band(after, 250) == pytest.approx(47.5 / 95)
    assert curve.share_in_band(((0, 250),), 250) is None


def test_a_gap_of_more_than_an_hour_counts_for_nothing():
    points = ((0, 250), (30, 250), (100, 250), (110, 300))
    assert curve.known_min(points) == 40
    assert curve.value_at(points, 15) == 250 and curve.value_at(points, 60) is None
    assert curve.share_in_band(points, 250) == pytest.approx((30 + 3) / 40)
    assert curve.longest_gap(points) == (30, 100)


def test_worst_over_and_under_with_their_minutes():
    assert curve.worst_over(UP_OVER_UNDER, 250) == (50, 40)
    assert curve.worst_under(curve.since(UP_OVER_UNDER, 42), 250) == (110, 30)
    assert curve.worst_over(((0, 240),), 250) is None and curve.worst_under((), 250) is None


def test_swings_count_only_right_across_the_band():
    assert curve.swings(UP_OVER_UNDER, 250) == 2                # below, above, below
    assert curve.swings(((0, 200), (10, 260), (20, 230)), 250) == 0


@given(st.lists(st.tuples(st.floats(0.1, 90), st.floats(60, 700)), min_size=1, max_size=40), st.floats(150, 500))
def test_time_within_above_and_below_add_up(steps, target):
    minute, points = 0.0, []
    for wait, value in steps:
        minute += wait
        points.append((minute, value))
    points = tuple(points)
    low, high = curve.band(target)
    parts = [curve.total(curve.spans_between(points, *edges))
             for edges in ((-1e9, low), (low, high), (high, 1e9))]
    known = curve.known_min(points)
    assert sum(parts) == pytest.approx(known, abs=1e-5) or any(value in (low, high) for _, value in points)
    if known:
        assert 0 <= curve.share_in_band(points, target) <= 1 + 1e-9
