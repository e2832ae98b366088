"""Which stretches of a cook count, and what each says of the opening: ceramic still cold, bottom vent, slope."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.ownchart import draught
from advisor.ownchart.ceramic import Wall
from advisor.ownchart.pastcook import Moved, PastCook
from advisor.ownchart.stretches import stretches_of

LONG_AGO = -600.0  # lit ten hours before: the ceramic is warm


def cook(readings, moves=(), disturbed=(), lit=LONG_AGO, top=0.2, bottom=0.25):
    vents = (Moved(-500.0, "bottom", bottom), Moved(-500.0, "top", top)) if bottom is not None else (Moved(-500.0, "top", top),)
    return PastCook(tuple(readings), (*vents, *moves), tuple(disturbed), lit)


def steady(start, end, dome=275.0, slope=0.0, every=10):
    return [(float(at), dome + slope * (at - start)) for at in range(start, end + 1, every)]


def test_half_an_hour_at_rest_is_a_stretch():
    (found,) = stretches_of(cook(steady(0, 30)))
    assert found.dome_f == pytest.approx(275.0) and found.top == 0.2
    assert draught.opening_of(found.level) == pytest.approx(0.2, rel=0.08)


def test_without_a_vent_known_nothing_counts():
    assert stretches_of(PastCook(tuple(steady(0, 30)), (), lit_min=LONG_AGO)) == []


@pytest.mark.parametrize("slope", [-1.0, 1.0])
def test_a_dome_on_the_move_does_not_count(slope):
    assert stretches_of(cook(steady(0, 30, slope=slope))) == []


def test_a_quarter_of_an_hour_after_a_move_does_not_count():
    moved = Moved(0.0, "top", 0.3, 0.2)
    assert stretches_of(cook(steady(0, 14, every=7), [moved])) == []
    (found,) = stretches_of(cook(steady(0, 40), [moved]))
    assert (found.start_min, found.top) == (20.0, 0.3)


def test_a_lid_opened_breaks_a_stretch_in_two():
    assert len(stretches_of(cook(steady(-30, 0, every=6)))) == 1
    assert [s.start_min for s in stretches_of(cook(steady(-30, 30, every=6), disturbed=[0.0]))] == [-30.0, 18.0]


@pytest.mark.parametrize(("top", "bottom"), [(0.0, 0.25), (0.2, 0.0)])
def test_shut_vents_hold_nothing(top, bottom):
    assert stretches_of(cook(steady(0, 30), top=top, bottom=bottom)) == []


def test_two_readings_close_together_show_no_slope():
    assert stretches_of(cook([(0.0, 275.0), (5.0, 275.0)])) == []


def test_cold_ceramic_makes_an_opening_look_larger_than_it_must_be():
    warm, = stretches_of(cook(steady(60, 90)))
    path = [(0.0, 68.0), (15.0, 275.0), *steady(20, 90)]
    early, *_, late = stretches_of(cook(path, lit=0.0))
    assert early.level < late.level < warm.level
    assert early.sd > late.sd > warm.sd


def test_where_it_is_not_known_how_warm_the_ceramic_is_the_stretch_is_less_sure():
    known, = stretches_of(cook(steady(0, 30)))
    unknown, = stretches_of(cook(steady(0, 30), lit=None))
    assert unknown.sd > known.sd and unknown.level < known.level


def test_a_bottom_vent_nobody_told_of_makes_it_less_sure():
    known, = stretches_of(cook(steady(0, 30)))
    unknown, = stretches_of(cook(steady(0, 30), bottom=None))
    assert unknown.sd > known.sd and unknown.level == pytest.approx(known.level)


def test_a_climbing_dome_will_go_further():
    flat, = stretches_of(cook(steady(0, 30)))
    climbing, = stretches_of(cook(steady(0, 30, slope=0.4, dome=269.0)))
    assert climbing.dome_f > flat.dome_f


def test_a_long_cook_gives_a_stretch_for_every_half_hour():
    assert 5 <= len(stretches_of(cook(steady(0, 240)))) <= 8


# -- the ceramic ----------------------------------------------------------------------------------------------------------


def test_a_wall_follows_a_step_by_its_time_constant():
    wall = Wall(30.0, 1.6)
    path = tuple((float(at), 268.0) for at in range(0, 121, 5))
    followed = wall.followed(path, 68.0)
    assert followed[6] == pytest.approx(68.0 + 200.0 * (1.0 - 2.718281828 ** -1.0), abs=0.01)  # 63.2 % after 30 minutes
    assert followed[24] == pytest.approx(268.0, abs=4.0)


def test_a_wall_lags_a_ramp_by_its_time_constant():
    followed = Wall(30.0, 1.6).followed(tuple((float(at), 68.0 + at) for at in range(0, 601, 10)), 68.0)
    assert followed[-1] == pytest.approx(68.0 + 600.0 - 30.0, abs=0.01)


@pytest.mark.parametrize("kind", ["small", "medium", "large"])
def test_the_figures_of_a_wall_are_those_of_ceramic(kind):
    wall = Wall.of(kind)
    assert 25.0 < wall.lag_min < 60.0     # a kamado is taken to be hot through after an hour or so: common practice
    assert 1.0 < wall.draw < 3.0


def test_a_warm_wall_asks_for_nothing_more():
    assert Wall(30.0, 1.6).extra(275.0, 275.0, 68.0) == 0.0
    assert Wall(30.0, 1.6).extra(275.0, 68.0, 68.0) == pytest.approx(0.9555, abs=1e-3)  # ln 2.6


# -- the draught ----------------------------------------------------------------------------------------------------------


@given(st.floats(0.02, 1.0))
def test_an_inch_of_bottom_is_an_inch(top):
    assert draught.Bottom.of("large").at_an_inch(top, 0.25) == pytest.approx(top)


@given(st.floats(0.02, 0.4), st.floats(0.3, 1.0))
def test_a_wider_bottom_counts_as_more_top(top, bottom):
    found = draught.Bottom.of("large").at_an_inch(top, bottom)
    assert found is None or found >= top


def test_resistances_one_behind_the_other_stay_the_same():
    way = draught.Bottom.of("large")
    found = way.at_an_inch(0.3, 0.12)

    def resistance(top, bottom):
        return top ** (-2 * way.shape) + (way.slide * bottom) ** -2 + way.grate ** -2
    assert found < 0.3 and resistance(found, 0.25) == pytest.approx(resistance(0.3, 0.12))


def test_a_bottom_that_rules_the_flow_tells_nothing_of_the_top():
    assert draught.Bottom.of("large").at_an_inch(1.0, 0.02) is None
