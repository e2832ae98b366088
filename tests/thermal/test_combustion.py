"""The fire's relations: heats against `chemicals` and measured charcoals, limits when starved or unlit."""

import numpy as np
import pytest
from chemicals.combustion import combustion_data

from advisor.thermal import combustion


def test_carbon_per_oxygen_is_not_the_figure_of_organic_fuels():
    data = combustion_data({"C": 1}, Hf=0, MW=12.011)
    per_oxygen = -data.HHV / 31.998e-3
    assert combustion.CARBON_HEAT_PER_O2 == pytest.approx(per_oxygen, rel=2e-3)
    assert combustion.CARBON_HEAT_PER_O2 < 0.95 * combustion.VOLATILE_HEAT_PER_O2


def test_pure_carbon():
    assert combustion.char_oxygen(1.0, 0.0) == pytest.approx(31.998 / 12.011, rel=1e-3)
    assert combustion.char_heat(1.0, 0.0) == pytest.approx(32.76e6, rel=2e-3)


def test_carbon_to_carbon_monoxide_only():
    assert combustion.char_heat(1.0, 1.0) == pytest.approx(110.5e3 / 12.011e-3, rel=2e-3)
    assert combustion.char_heat(1.0, 1.0) / combustion.char_oxygen(1.0, 1.0) == pytest.approx(
        6.91e6, rel=2e-3
    )


@pytest.mark.parametrize(
    "carbon, volatile, measured",
    [
        (0.78, 0.18, 32.2e6),  # wood charcoal 31.0-33.5 MJ/kg, volatiles 17.7-19.1 %, fixed C 77.6-79.5 %
        (0.79, 0.20, 31.6e6),  # oak charcoal, 0.5 % ash, 20 % volatiles
        (0.895, 0.094, 34.4e6),  # 1 % ash, 9.4 % volatiles
    ],
)
def test_measured_charcoals(carbon, volatile, measured):
    assert combustion.whole_heat(carbon, volatile, 0.0) == pytest.approx(measured, rel=0.10)


def test_moisture_costs_its_latent_heat():
    dry, damp = combustion.whole_heat(0.75, 0.15, 0.0), combustion.whole_heat(0.75, 0.15, 0.08)
    assert dry - damp == pytest.approx(0.08 * 2.4535e6, rel=5e-3)


def test_oxygen_use_spans_trickle_to_gale():
    assert combustion.oxygen_use(0.3, 0.002, 1e-6, 1.0) == pytest.approx(1.0)
    assert combustion.oxygen_use(0.3, 0.002, 0.1, 1.0) == pytest.approx(0.006, rel=0.01)
    assert combustion.oxygen_use(0.0, 0.002, 1e-3, 1.0) == 0.0
    assert combustion.oxygen_use(0.3, 0.002, 0.0, 1.0) <= 1.0


def test_aliveness_is_half_at_its_edge_and_calm_far_off():
    assert combustion.aliveness(600.0, 600.0) == 0.5
    assert combustion.aliveness(1000.0, 600.0) > 0.999
    assert combustion.aliveness(293.0, 600.0) < 1e-3
    assert np.isfinite(combustion.aliveness(0.0, 600.0))


def test_nothing_spreads_without_oxygen_fuel_or_heat():
    assert combustion.spread_rate(0.3, 2.0, 0.0, 1.0, 2e-3, 0.5) == 0.0
    assert combustion.spread_rate(0.3, 0.0, 1.0, 1.0, 2e-3, 1.0) == 0.0
    assert combustion.spread_rate(0.0, 2.0, 1.0, 1.0, 2e-3, 0.5) == 0.0
    assert combustion.spread_rate(0.3, 2.0, 1.0, 1.0, 2e-3, 0.5) > 0.0


def test_spread_doubles_in_minutes_in_fresh_air():
    lit, minutes = 0.1, 0.0
    while lit < 0.2:
        lit += combustion.spread_rate(lit, 3.0, 1.0, 1.0, 0.0022, 0.45)
        minutes += 1.0 / 60.0
    assert 3.0 < minutes < 9.0


def test_dying_and_ash():
    assert combustion.dying_rate(0.3, 1.0, 2e-3) == 0.0
    assert combustion.dying_rate(0.3, 0.0, 2e-3) == pytest.approx(6e-4)
    assert combustion.grate_area(1e-3, 0.0, 0.4) == 1e-3
    assert combustion.grate_area(1e-3, 0.4, 0.4) == pytest.approx(1e-4)
    assert combustion.grate_area(1e-3, 9.0, 0.4) == pytest.approx(1e-4)


def test_volatiles_take_what_oxygen_there_is():
    fresh = combustion.volatile_oxygen(1e-4, 0.2314)
    assert fresh == pytest.approx(1.5e-4, rel=1e-3)
    assert combustion.volatile_oxygen(1e-4, 0.0) == 0.0
    assert 0.0 < combustion.volatile_oxygen(1e-4, 0.03) < fresh


def test_coal_area_grows_with_the_heap_until_the_bed_is_covered():
    small, large = (combustion.coal_area(m, 200.0, 0.5, 0.08) for m in (0.1, 0.8))
    assert large == pytest.approx(4.0 * small, rel=1e-3)
    assert combustion.coal_area(50.0, 200.0, 0.5, 0.08) == pytest.approx(1.3 * 0.08, rel=1e-3)
