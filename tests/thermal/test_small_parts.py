"""Deflector, lid and gauge: limits, shares that sum, lags of a first-order system."""

import numpy as np
import pytest

from advisor.thermal import deflector, gauge, lid


@pytest.mark.parametrize("inside", [0.0, 1.0])
def test_the_coals_see_everything_once(inside):
    assert sum(deflector.view_shares(inside)) == pytest.approx(1.0)


def test_a_deflector_hides_the_dome_and_stores_heat():
    assert deflector.view_shares(1.0)[1] == 0.0
    assert deflector.plate_capacity(4.0, 2.0, 1.0) == pytest.approx(4380.0)
    assert deflector.plate_capacity(4.0, 2.0, 0.0) == pytest.approx(980.0)


def test_effective_emissivity_of_black_faces_is_one():
    assert deflector.effective_emissivity(1.0, 1.0) == 1.0
    assert deflector.effective_emissivity(0.9, 0.9) == pytest.approx(0.818, abs=1e-3)


def test_lid_trades_nothing_shut_or_cold():
    assert lid.exchange_rate(0.0, 0.7, 1.2, 0.75) == 0.0
    assert lid.exchange_rate(0.05, 0.7, 1.2, 1.2) == 0.0
    assert lid.exchange_rate(0.05, 0.7, 1.2, 0.75) == pytest.approx(3.6e-3, rel=0.02)


def test_a_burp_swaps_gas_for_air():
    gas, oxygen = lid.burped(450.0, 0.05, 293.0, 0.2314, 0.004, 0.05, 12.0)
    assert 293.0 < gas < 400.0
    assert 0.05 < oxygen < 0.2314
    assert lid.burped(450.0, 0.05, 293.0, 0.2314, 0.004, 0.05, 0.0) == pytest.approx((450.0, 0.05))


def test_flash_needs_both_starving_and_glowing():
    oxygen, coal = np.array([0.02, 0.2, 0.02]), np.array([900.0, 900.0, 500.0])
    assert lid.flash_danger(oxygen, coal).tolist() == [True, False, False]


def test_gauge_lags_as_a_first_order_system():
    assert gauge.lag_step(0.0, 100.0, 60.0, 60.0) == pytest.approx(63.2, abs=0.05)
    assert gauge.lag_step(0.0, 100.0, 60.0, 240.0) == pytest.approx(98.2, abs=0.05)
    assert gauge.lag_step(0.0, 100.0, 0.0, 1.0) == pytest.approx(100.0)
    assert gauge.lag_step(50.0, 50.0, 60.0, 30.0) == 50.0


def test_gauge_is_read_to_the_mark():
    assert gauge.as_read(273.0, 0.0, 5.0) == 275.0
    assert gauge.as_read(273.0, 5.0, 0.0) == 278.0
    assert gauge.as_read(0.0, 0.0, 5.0) == 0.0


def test_gauge_feels_gas_and_wall():
    assert gauge.sensed(400.0, 400.0, 0.3) == 400.0
    assert gauge.sensed(400.0, 300.0, 0.25) == 375.0
