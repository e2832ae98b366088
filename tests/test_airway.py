"""The free way of the air: there and back again, more vent is more way, and two orifices in series as the library has them."""

from math import exp

import pytest
from fluids.flow_meter import flow_meter_discharge
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from advisor.airway import BOTTOM_AREA, LEAKY, LEAST_BOTTOM, SMALLEST_GAP, Airway
from advisor.thermal.draught import series_area

AIRWAYS = st.builds(Airway, inch=st.floats(0.1, 1.0), leak=st.floats(0.0, LEAKY))
TOPS, BOTTOMS = st.floats(SMALLEST_GAP, 1.0), st.floats(LEAST_BOTTOM, 1.0)
WAYS = st.floats(-9.0, 3.0)


@given(AIRWAYS, TOPS, BOTTOMS)
def test_a_vent_is_found_again_from_the_way_it_gives(airway, top, bottom):
    way = airway.way(top, bottom)
    assert airway.top_for(way, bottom) == pytest.approx(top, rel=1e-6)
    assert airway.bottom_for(way, top) == pytest.approx(bottom, rel=1e-6)


@given(AIRWAYS, TOPS, TOPS, BOTTOMS, BOTTOMS)
def test_a_wider_vent_never_gives_less_way(airway, one, other, low, high):
    assert airway.way(min(one, other), min(low, high)) <= airway.way(max(one, other), max(low, high))


@given(AIRWAYS, WAYS, WAYS, BOTTOMS)
def test_more_way_never_asks_for_a_smaller_vent(airway, one, other, stands):
    less, more = airway.placed(min(one, other), stands), airway.placed(max(one, other), stands)
    assert less[0] <= more[0] + 1e-9 and less[1] <= more[1] + 1e-9


@given(AIRWAYS, WAYS, BOTTOMS)
def test_vents_are_placed_within_bounds_and_give_the_way_or_the_nearest_to_it(airway, way, stands):
    top, bottom = airway.placed(way, stands)
    assert SMALLEST_GAP <= top <= 1.0 and LEAST_BOTTOM <= bottom <= 1.0
    least, most = airway.way(SMALLEST_GAP, LEAST_BOTTOM), airway.way(1.0, 1.0)
    assert airway.way(top, bottom) == pytest.approx(min(most, max(least, way)), abs=1e-6)


@given(AIRWAYS, TOPS, BOTTOMS, BOTTOMS)
def test_the_bottom_is_left_where_it_stands_while_the_top_can_do_it(airway, top, bottom, stands):
    """One vent after the other: the top steers. Common practice, no published source."""
    way = airway.way(top, bottom)
    _, placed = airway.placed(way, stands)
    assert placed == stands or not airway.way(SMALLEST_GAP, stands) <= way <= airway.way(1.0, stands)


@pytest.mark.parametrize(("top", "bottom"), [(0.1, 0.25), (0.5, 0.25), (1.0, 0.05), (0.03, 1.0)])
def test_two_vents_let_through_what_two_orifices_in_a_row_do(top, bottom):
    """Flow by `fluids` (orifice equation): the pressure between the two is where as much comes in as goes out."""
    def flow(opening: float, dp: float) -> float:
        side = (opening * 1e-3) ** 0.5   # a hole of opening x 10 cm² in a wide wall, as the library wants a diameter
        return flow_meter_discharge(D=50.0, Do=side, P1=101325.0 + dp, P2=101325.0, rho=1.2, C=0.62, expansibility=1.0)

    whole = 2.0
    between = brentq(lambda dp: flow(BOTTOM_AREA * bottom, whole - dp) - flow(top, dp), 1e-12, whole - 1e-12, xtol=1e-15)
    way = exp(Airway(leak=0.0).way(top, bottom))
    assert flow(way, whole) == pytest.approx(flow(top, between), rel=1e-3)


def test_the_way_is_that_of_the_physics():
    """3 and 4 in a row make 2.4: the worked case that tests/thermal/test_draught.py holds thermal/draught.py to."""
    assert exp(Airway(leak=0.0).way(0.3, 0.4 / BOTTOM_AREA)) == pytest.approx(0.24)
    assert exp(Airway(leak=0.02).way(0.3, 0.2)) == pytest.approx(series_area(0.32, BOTTOM_AREA * 0.2 + 0.012))


def test_a_leak_keeps_air_moving_where_both_vents_are_shut():
    assert Airway(leak=0.01).way(0.0, 0.0) < Airway(leak=LEAKY).way(0.0, 0.0) < Airway().way(0.1, 0.25)
