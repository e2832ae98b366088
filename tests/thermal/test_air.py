"""Air against CoolProp and published temperature pairs."""

import pytest
from CoolProp.CoolProp import PropsSI

from advisor.thermal import air

CELSIUS = [-10.0, 0.0, 20.0, 107.2, 150.0, 200.0, 300.0, 400.0]


@pytest.mark.parametrize(
    "c, rho", [(20, 1.2046), (107.2, 0.9279), (150, 0.8340), (200, 0.7458), (300, 0.6157)]
)
def test_density_of_the_table(c, rho):
    assert air.density(c + 273.15) == pytest.approx(rho, rel=2e-3)


@pytest.mark.parametrize("c, cp", [(20, 1006.1), (107, 1012.0), (200, 1025.0), (400, 1068.5)])
def test_heat_capacity_of_the_table(c, cp):
    assert air.heat_capacity(c + 273.15) == pytest.approx(cp, rel=5e-3)


@pytest.mark.parametrize("c", CELSIUS)
def test_properties_agree_with_coolprop(c):
    t = c + 273.15
    nu = PropsSI("V", "T", t, "P", 101325, "Air") / PropsSI("D", "T", t, "P", 101325, "Air")
    assert air.conductivity(t) == pytest.approx(PropsSI("L", "T", t, "P", 101325, "Air"), rel=0.03)
    assert air.kinematic_viscosity(t) == pytest.approx(nu, rel=0.03)


def test_one_figure_for_flue_gas_lies_between_its_ends():
    assert air.heat_capacity(293.15) < air.CP_FLUE < air.heat_capacity(673.15)


def test_fahrenheit_and_back():
    assert air.kelvin(212.0) == pytest.approx(373.15)
    assert air.kelvin(0.0) == pytest.approx(255.372, abs=1e-3)
    assert air.fahrenheit(air.kelvin(-40.0)) == pytest.approx(-40.0)


def test_pressure_falls_with_altitude():
    assert air.pressure_at(0.0) == 101325.0
    assert air.pressure_at(1000.0) == pytest.approx(89875.0, rel=1e-3)
