"""Walls: library values, handbook checks, and conduction in layers against the analytical decay of a slab."""

import ht
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from advisor.thermal import population, walls
from advisor.thermal.state import LAYERS, WALLS_COUNT, Fixed, Surroundings


@pytest.mark.parametrize("celsius, h", [(60, 4.38), (100, 5.25), (150, 5.85)])
def test_natural_convection_of_the_checked_sphere(celsius, h):
    ours = walls.natural_convection_sphere(celsius + 273.15, 293.15, 0.45)
    assert ours == pytest.approx(h, rel=0.03)


@pytest.mark.parametrize("surface", [300.0, 330.0, 400.0, 500.0])
@pytest.mark.parametrize("width", [0.35, 0.5])
def test_natural_convection_agrees_with_the_library(surface, width):
    film = 0.5 * (surface + 293.15)
    prop = {key: PropsSI(key, "T", film, "P", 101325, "Air") for key in ("V", "D", "L", "PRANDTL")}
    grashof = 9.80665 / film * (surface - 293.15) * width**3 / (prop["V"] / prop["D"]) ** 2
    there = ht.Nu_sphere_Churchill(Pr=prop["PRANDTL"], Gr=grashof) * prop["L"] / width
    assert walls.natural_convection_sphere(surface, 293.15, width) == pytest.approx(there, rel=0.03)


def test_equal_temperatures_leave_conduction_through_still_air():
    assert walls.natural_convection_sphere(293.15, 293.15, 0.5) == pytest.approx(2 * 0.0255 / 0.5, rel=0.03)


@pytest.mark.parametrize("celsius, h", [(60, 6.29), (100, 7.66), (150, 9.69)])
def test_radiation_coefficient_of_the_checked_surface(celsius, h):
    assert walls.radiation_coefficient(celsius + 273.15, 293.15, 0.9) == pytest.approx(h, rel=5e-3)


def test_radiation_agrees_with_the_library_and_vanishes_at_equal_temperatures():
    assert walls.radiation(500.0, 300.0, 0.85) == pytest.approx(
        ht.q_rad(emissivity=0.85, T=500.0, T2=300.0), rel=1e-4
    )
    assert walls.radiation(300.0, 250.0, 1.0) == pytest.approx(237.8, rel=1e-3)
    assert walls.radiation(300.0, 300.0) == 0.0


def test_wind_convection_is_that_of_whitaker():
    re = 3.0 * 0.5 / (PropsSI("V", "T", 320, "P", 101325, "Air") / PropsSI("D", "T", 320, "P", 101325, "Air"))
    nusselt = 2 + (0.4 * re**0.5 + 0.06 * re ** (2 / 3)) * 0.71**0.4
    there = nusselt * PropsSI("L", "T", 320, "P", 101325, "Air") / 0.5
    assert walls.wind_convection_sphere(3.0, 320.0, 0.5) == pytest.approx(there, rel=0.03)
    assert walls.wind_convection_sphere(0.0, 320.0, 0.5) == pytest.approx(2 * walls.conductivity(320.0) / 0.5)


@pytest.mark.parametrize("dt", [10.0, 40.0, 100.0])
def test_inside_convection_is_near_the_library_plate(dt):
    film = 400.0
    prop = {key: PropsSI(key, "T", film, "P", 101325, "Air") for key in ("V", "D", "L", "PRANDTL")}
    grashof = 9.80665 / film * dt * 0.235**3 / (prop["V"] / prop["D"]) ** 2
    there = ht.Nu_vertical_plate_Churchill(Pr=prop["PRANDTL"], Gr=grashof) * prop["L"] / 0.235
    assert walls.inside_convection(dt, 0.235) == pytest.approx(there, rel=0.25)


def test_inside_convection_vanishes_without_difference():
    assert walls.inside_convection(0.0, 0.2) == 0.0
    assert walls.inside_convection(-20.0, 0.2) == walls.inside_convection(20.0, 0.2)


def test_biot_of_a_thick_wall_says_it_is_not_one_lump():
    assert walls.biot(10.0, 0.025, 1.2) == pytest.approx(0.208, rel=2e-3)


def _decay(layers: int) -> float:
    """Ratio of the numerical to the analytical decay rate of a slab insulated on both sides, first cosine
    mode.
    """
    k, rho, cp, length = 1.1, 2000.0, 900.0, 0.05
    dx, alpha = length / layers, k / rho / cp
    t = np.cos(np.pi * (np.arange(layers) + 0.5) / layers)[:, None]
    start, dt, steps = t.copy(), 0.2, 500
    for _ in range(steps):
        flux = walls.conduction(t, k / dx)
        change = np.zeros_like(t)
        change[:-1] -= flux
        change[1:] += flux
        t = t + dt * change / (rho * cp * dx)
    return float(-np.log(t[0, 0] / start[0, 0]) / (alpha * np.pi**2 / length**2 * dt * steps))


def test_conduction_decays_like_the_analytical_slab():
    assert _decay(LAYERS) == pytest.approx(1.0, abs=0.04)
    assert _decay(20) == pytest.approx(1.0, abs=0.005)


def test_the_implicit_wall_step_keeps_heat_and_decays_like_the_slab():
    c = population.middle("large")
    fixed = Fixed(c, Surroundings())
    mode = np.cos(np.pi * (np.arange(LAYERS) + 0.5) / LAYERS)
    layers = 300.0 + 50.0 * np.broadcast_to(mode[None, :, None], (WALLS_COUNT, LAYERS, 1)).copy()
    heat = (fixed.layer_cp[:, None, :] * layers).sum(axis=(1, 2))
    first = layers[0, 0, 0] - 300.0
    for _ in range(30):
        into = np.zeros_like(layers)
        onward = walls.conduction(layers, fixed.step_ua)
        into[:, :-1] -= onward
        into[:, 1:] += onward
        change = 10.0 * into / fixed.layer_cp[:, None, :]
        layers = layers + (fixed.wall_step(10.0) * change[:, None]).sum(axis=2)
    alpha = (c.wall_k / c.wall_density / c.wall_cp)[0]
    expected = np.exp(-alpha * (np.pi / c.dome_thickness[0]) ** 2 * 300.0)
    assert (layers[0, 0, 0] - 300.0) / first == pytest.approx(expected, abs=0.02)
    assert (fixed.layer_cp[:, None, :] * layers).sum(axis=(1, 2)) == pytest.approx(heat, rel=1e-10)


def test_steady_profile_carries_one_flux_throughout():
    t = walls.steady_profile(np.array([420.0]), 293.0, 12.0, 10.0, 0.03, 1.0, 5)[:, 0]
    inner = 12.0 * (420.0 - t[0]) / (1 + 12.0 * 0.003)
    assert np.diff(t) == pytest.approx(np.full(4, np.diff(t)[0]))
    assert inner == pytest.approx(-np.diff(t)[0] / 0.006, rel=1e-6)
