"""Draught, orifice and three-opening flow: worked examples, an independent library, and the limits."""

import numpy as np
import pytest
from fluids.flow_meter import flow_meter_discharge
from scipy.optimize import brentq

from advisor.thermal import draught


@pytest.mark.parametrize(
    "height, t_out, t_in, pascal",
    [
        (1.0, 283.2, 296.2, 0.54),  # staircase calculation sheet, ASHRAE form, 3460 per m
        (0.5, 293.15, 380.35, 1.354),  # worked from the formula with dry air
        (0.5, 293.15, 423.15, 1.814),
        (0.6, 293.15, 573.15, 3.461),
    ],
)
def test_stack_pressure_of_worked_examples(height, t_out, t_in, pascal):
    assert draught.stack_pressure(height, t_out, t_in) == pytest.approx(pascal, rel=0.01)


def test_no_stack_without_warmth_and_a_downward_one_when_cold():
    assert draught.stack_pressure(0.5, 293.0, 293.0) == 0.0
    assert draught.stack_pressure(0.5, 293.0, 283.0) < 0.0


def test_orifice_of_the_worked_vent():
    area = np.pi / 4 * 0.05**2
    assert draught.orifice_flow(area, 1.0, 1.2, 0.62) == pytest.approx(1.886e-3, rel=1e-3)


def test_orifice_of_the_worked_water_hole():
    area = np.pi / 4 * 0.05**2
    flow = draught.orifice_flow(area, 1000.0 * 9.81 * 3.0, 1000.0, 0.62) / 1000.0
    assert flow == pytest.approx(0.00934, rel=1e-3)


@pytest.mark.parametrize("dp", [0.1, 0.5, 2.0, 10.0])
def test_orifice_agrees_with_the_library(dp):
    area = np.pi / 4 * 0.03**2
    there = flow_meter_discharge(
        D=3.0, Do=0.03, P1=101325.0 + dp, P2=101325.0, rho=1.2, C=0.62, expansibility=1.0
    )
    assert draught.orifice_flow(area, dp, 1.2, 0.62) == pytest.approx(there, rel=1e-3)


def test_orifice_is_odd_and_nothing_at_nothing():
    assert draught.orifice_flow(1e-3, 0.0, 1.2) == 0.0
    assert draught.orifice_flow(1e-3, -1.0, 1.2) == -draught.orifice_flow(1e-3, 1.0, 1.2)
    assert draught.orifice_flow(0.0, 5.0, 1.2) == 0.0


def test_openings_in_series():
    assert draught.series_area(3e-3, 4e-3) == pytest.approx(2.4e-3)
    assert draught.series_area(0.0, 4e-3) == 0.0
    assert draught.series_area(0.0, 0.0) == 0.0


def _root(area, head, rho_out, rho_in):
    def error(p):
        dp = head - p
        return draught.orifice_flow(area, dp, np.where(dp > 0, rho_out, rho_in)).sum()

    return brentq(error, head.min() - 1e-9, head.max() + 1e-9)


@pytest.mark.parametrize("seed", range(40))
def test_offset_agrees_with_a_root_finder(seed):
    rng = np.random.default_rng(seed)
    area = np.exp(rng.uniform(np.log(1e-5), np.log(5e-3), 4))
    heights = np.array([0.0, 0.15, 0.25, 0.5])
    rho_in = rng.uniform(0.5, 1.15)
    head = draught.heads(heights, 1.2, rho_in, rng.normal(0.0, 0.5, 4))
    ours = draught.flows(area[:, None], head[:, None], np.array([1.2]), np.array([rho_in]))[:, 0]
    dp = head - _root(area, head, 1.2, rho_in)
    exact = draught.orifice_flow(area, dp, np.where(dp > 0, 1.2, rho_in))
    assert np.abs(ours - exact).max() < 0.02 * np.abs(exact).max() + 1e-7


def test_two_openings_share_the_stack_as_the_textbook_says():
    area = np.array([[1e-3], [0.0], [0.0], [1e-3]])
    heights = np.array([[0.0], [0.2], [0.2], [0.5]])
    head = draught.heads(heights, 1.2, np.array([0.8]))
    flow = draught.flows(area, head, np.array([1.2]), np.array([0.8]))
    stack = 0.4 * 9.80665 * 0.5
    expected = 0.62 * 1e-3 * np.sqrt(2.0 * stack / (1 / 1.2 + 1 / 0.8))
    assert flow[0, 0] == pytest.approx(expected, rel=1e-3)
    assert flow[3, 0] == pytest.approx(-expected, rel=1e-3)


def test_equal_temperatures_or_shut_vents_give_no_flow():
    heights = np.array([[0.0], [0.2], [0.3], [0.5]])
    none = draught.heads(heights, np.array([1.2]), np.array([1.2]))
    assert np.abs(draught.flows(np.full((4, 1), 1e-3), none, np.array([1.2]), np.array([1.2]))).max() < 1e-12
    hot = draught.heads(heights, np.array([1.2]), np.array([0.8]))
    assert np.abs(draught.flows(np.zeros((4, 1)), hot, np.array([1.2]), np.array([0.8]))).max() == 0.0


def test_air_leaves_by_the_leak_when_the_top_is_shut():
    area, heights = np.array([[1e-3], [1e-4], [1e-4], [0.0]]), np.array([[0.0], [0.2], [0.3], [0.5]])
    flow = draught.flows(area, draught.heads(heights, 1.2, np.array([0.8])), np.array([1.2]), np.array([0.8]))
    assert flow[0, 0] > 0.0 and flow[2, 0] < 0.0


def test_back_flow_needs_a_light_inside_and_a_still_vent():
    d100 = np.pi / 4 * 0.1**2
    assert draught.exchange_flow(d100, 1.2, 0.8, 0.0) == pytest.approx(0.377e-3, rel=0.02)
    assert draught.exchange_flow(d100, 1.2, 1.2, 0.0) == 0.0
    assert draught.exchange_flow(d100, 1.2, 0.8, -0.01) == 0.0
    assert draught.exchange_flow(0.0, 1.2, 0.8, 0.0) == 0.0


def test_wind_pushes_with_its_square_and_knows_its_side():
    assert draught.wind_pressure(4.0, 0.5, 1.2) == pytest.approx(4.8)
    assert draught.wind_pressure(0.0, 0.5, 1.2) == 0.0
    assert draught.wind_pressure(2.0, -0.3, 1.2) < 0.0
