"""Charcoal fire: heat by oxygen used, lit mass that spreads, starves and dies, ash that chokes the grate."""

import numpy as np

# J/kg O2, C -> CO2: 393.5 kJ/mol / 31.998 g/mol (not the 13.1 of organic fuels)
CARBON_HEAT_PER_O2 = 12.30e6
VOLATILE_HEAT_PER_O2 = 13.1e6  # J/kg O2, oxygen-consumption rule for organic matter, +-5 %
CARBON_O2 = 2.664  # kg O2 per kg carbon, C -> CO2
VOLATILE_O2 = 1.5  # kg O2 per kg volatiles; near that of wood tar and gas, from memory
CO_O2_SAVED = 0.5  # carbon that leaves as CO has used half the oxygen
CO_HEAT_KEPT = 110.5 / 393.5  # ... and given this share of its heat (standard enthalpies)
CHAR_CP = 1250.0  # J/(kg K), carbon, mean of 20 to 550 C (graphite 710 to 1600), from memory
WATER_HEAT = 2.45e6  # J/kg, latent heat at 20 C (CoolProp)


def char_oxygen(carbon_share, co_share):
    """Oxygen [kg] that burns 1 kg of glowing char (carbon and ash, volatiles gone). Pure carbon, no CO:
    2.664.
    """
    return carbon_share * CARBON_O2 * (1.0 - CO_O2_SAVED * co_share)


def char_heat(carbon_share, co_share):
    """Heat [J] from 1 kg of glowing char. Pure carbon, no CO: 32.8 MJ; all to CO: 9.2 MJ."""
    return carbon_share * CARBON_O2 * CARBON_HEAT_PER_O2 * (1.0 - co_share * (1.0 - CO_HEAT_KEPT))


def whole_heat(carbon, volatile, moisture):
    """Heat [J] from 1 kg of raw charcoal burnt out fully, water driven off (measured charcoal: 26-34 MJ)."""
    return char_heat(carbon, 0.0) + volatile * VOLATILE_O2 * VOLATILE_HEAT_PER_O2 - moisture * WATER_HEAT


def volatile_oxygen(released, oxygen):
    """Oxygen [kg/s] that burns volatiles released [kg/s] in gas of that oxygen share; what it lacks leaves as
    smoke.

    All that is wanted in fresh air, less as oxygen runs out: y / (y + 0.03), an assumed shape.
    """
    return released * VOLATILE_O2 * oxygen / (oxygen + 0.03) * (1.0 + 0.03 / 0.2314)


def oxygen_use(lit, transfer, flow, alive):
    """Share 0..1 of the oxygen passing the lit bed that is used: 1 - exp(-K m_lit alive / flow).

    Plug flow past a surface with mass-transfer conductance K [kg/s per kg lit] (effectiveness-NTU relation).
    All is used in a trickle, little in a gale; nothing when nothing is lit.
    """
    return -np.expm1(-transfer * lit * alive / np.maximum(flow, 1e-9))


def aliveness(t_coal, t_out):
    """Reactivity 0..1 of lit charcoal at t_coal [K]; half at t_out [K], the edge of going out.

    A logistic in temperature with 35 K width stands for the Arrhenius law near extinction (assumed shape).
    """
    return 1.0 / (1.0 + np.exp(np.minimum((t_out - t_coal) / 35.0, 50.0)))


def spread_rate(lit, unlit, oxygen, catching, spread, reach):
    """Charcoal catching [kg/s]: grows with what is lit, with oxygen at the coals and with unlit left over.

    oxygen: mass share at the coals over that of fresh air, 0..1; catching: aliveness against the temperature
    that
    lights a neighbour. spread [1/s] is the rate in fresh air with hot coals; reach the share of the charcoal
    the draught passes.
    """
    neighbours = np.maximum(1.0 - lit / (reach * (lit + unlit) + 1e-9), 0.0) * (unlit > 0.0)
    return spread * lit * catching * oxygen * neighbours


def dying_rate(lit, alive, dying):
    """Lit charcoal going out [kg/s]: dying [1/s] once the coals are too cold to react; none when
    well alive.
    """
    return dying * lit * (1.0 - alive) ** 2


def coal_area(lit, bulk_density, exposed, bed_area):
    """Radiating area [m2] of the lit heap: exposed x surface of a ball of that volume, at most 1.3
    x the bed.
    """
    ball = 4.836 * np.cbrt(lit / bulk_density) ** 2
    return np.minimum(exposed * ball, 1.3 * bed_area) + 1e-6


def grate_area(clean, ash, ash_full):
    """Open area [m2] of grate and bed once ash [kg] lies on it; ash_full shuts nine tenths of it.

    Linear blockage is an assumption; ash of 2-13 % of the fuel (EN 1860-2 survey) makes it matter after long
    cooks.
    """
    return clean * np.maximum(1.0 - 0.9 * ash / ash_full, 0.1)
