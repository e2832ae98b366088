"""What hands did, against examples worked by hand."""

import pytest

from advisor.report import hands
from advisor.report.story import LidUp, VentMove


def top(at_min, opening, was=None):
    return VentMove(at_min, "top", opening, was)


def bottom(at_min, opening, was=None):
    return VentMove(at_min, "bottom", opening, was)


def test_a_vent_told_for_the_first_time_was_not_moved():
    first, again, other = top(10, 0.2), top(20, 0.2), top(30, 0.1)
    assert hands.made([first, again, other]) == [other]
    assert hands.made([top(10, 0.2, 0.2), bottom(12, 0.3, 1.0)]) == [bottom(12, 0.3, 1.0)]


def test_both_vents_set_at_once_are_one_visit():
    assert hands.occasions([top(10, 0.2), bottom(11, 0.2), top(13, 0.1), bottom(12.2, 0.3)]) == [10]
    assert hands.occasions([bottom(20, 0.2), top(10, 0.2), top(12, 0.1)]) == [10, 12, 20]
    assert hands.occasions([]) == []


def test_visits_within_five_minutes_are_too_close():
    assert hands.too_close([0, 4, 9, 13.9, 30]) == [4, 13.9]


def test_a_close_visit_pushed_across_when_the_dome_leaves_the_band_on_the_other_side():
    points = ((0, 270), (20, 240), (30, 230), (60, 250))
    assert hands.pushed_across([0, 30], points, 250) == [0]
    assert hands.pushed_across([0], ((0, 270), (30, 236)), 250) == []
    assert hands.pushed_across([0], ((0, 270), (44, 250), (46, 200)), 250) == []       # too late to be its doing
    assert hands.pushed_across([5], (), 250) == []


def test_a_big_move_the_dome_called_for_was_overdone():
    points = ((0, 230), (20, 270), (60, 230))
    assert hands.overdone([top(5, 0.3, 0.1)], points, 250) == [5]                  # 240, opened threefold, 270 later
    assert hands.overdone([top(5, 0.15, 0.1), top(5, 0.3)], points, 250) == []     # a small one; one nobody knows the start of
    assert hands.overdone([top(5, 0.1, 0.3)], points, 250) == []                   # closed while under: not its doing
    assert hands.overdone([top(25, 0.0, 0.1)], points, 250) == [25]                # 265, shut, 230 later


def test_openings_begin_with_what_stood_before():
    assert hands.openings([top(10, 0.2, 1.0), bottom(5, 0.3), top(30, 0.1)], "top", 50) == [
        (0.0, 10, 1.0), (10, 30, 0.2), (30, 50, 0.1)]
    assert hands.openings([top(10, 0.2)], "top", 50) == [(10, 50, 0.2)]
    assert hands.openings([top(10, 0.2), top(60, 0.1)], "top", 50) == [(10, 50, 0.2)]
    assert hands.openings([], "top", 50) == []


def test_wide_near_the_target_before_a_peak():
    points = ((0, 100), (30, 220), (50, 300), (60, 250))        # 215 at 28.75
    moves = [top(40, 0.2, 1.0)]
    assert hands.wide_near_target(moves, points, 250, 50) == [(28.75, 40)]
    assert hands.wide_near_target([top(20, 0.2, 1.0)], points, 250, 50) == []


def test_untouched_is_the_longest_part_between_visits():
    assert hands.untouched([(0, 50), (60, 100)], [20, 70]) == (20, 50)
    assert hands.untouched([], [20]) is None


def test_shut_for_good_is_not_the_same_as_choked():
    moves = [top(10, 0), bottom(10.5, 0), top(20, 0.1), bottom(80, 0.3), top(90, 0), bottom(95, 0)]
    assert hands.both_shut(moves, 120) == [(10.5, 20), (95, 120)]
    assert hands.put_out_min(moves, 120) == 95
    assert hands.put_out_min(moves[:4], 120) is None


def test_minutes_of_the_lid_are_known_only_when_all_are():
    assert hands.lid_minutes([LidUp(5, lasted_min=2.0), LidUp(9, burp=True, lasted_min=0.5)]) == 2.5
    assert hands.lid_minutes([LidUp(5, lasted_min=2.0), LidUp(9)]) is None
    assert hands.lid_minutes([]) is None


def test_the_dip_after_the_lid_and_the_vents_moved_because_of_it():
    points = ((0, 250), (10, 250), (14, 215), (25, 250), (60, 250), (64, 240), (70, 250))
    lids = [LidUp(10), LidUp(60)]
    assert hands.deepest_dip(lids, points) == (10, 35)
    assert hands.deepest_dip([LidUp(10, burp=True)], points) is None
    assert hands.chased([*lids, LidUp(90, burp=True)], [15, 71, 92]) == [10]


@pytest.mark.parametrize(("ones", "others", "common"), [
    ([(0, 10), (20, 30)], [(5, 25)], [(5, 10), (20, 25)]),
    ([(0, 10)], [(10, 20)], []),
    ([], [(0, 1)], []),
])
def test_overlaps(ones, others, common):
    assert hands.overlaps(ones, others) == common
