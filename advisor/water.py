"""Where water boils at a height: the check every thermometer can be put to."""

import math

SEA_LEVEL_PA = 101_325.0           # ICAO standard atmosphere
LAPSE_PER_FOOT = 6.8756e-6         # 0.0065 K/m over 288.15 K, per foot: ICAO standard atmosphere
PRESSURE_EXPONENT = 5.2559         # g M / (R L): ICAO standard atmosphere
LATENT_J_PER_KG = 2_256_400.0      # water at 100 °C, CoolProp 8.0.0
GAS_J_PER_KG_K = 461.5             # water vapour: 8.314 / 0.018015
BOILING_K = 373.124                # water at 101,325 Pa, CoolProp 8.0.0


def pressure_pa(altitude_ft: float) -> float:
    """Air pressure (Pa) at a height (ft), standard atmosphere, valid to 36,000 ft."""
    return SEA_LEVEL_PA * (1 - LAPSE_PER_FOOT * altitude_ft) ** PRESSURE_EXPONENT


def boiling_point_f(altitude_ft: float) -> float:
    """Boiling point of water (°F) at a height (ft). Clausius-Clapeyron with constant latent heat:
    within 0.5 °F up to 10,000 ft (checked against CoolProp)."""
    slope = GAS_J_PER_KG_K / LATENT_J_PER_KG
    kelvin = 1 / (1 / BOILING_K - slope * math.log(pressure_pa(altitude_ft) / SEA_LEVEL_PA))
    return round((kelvin - 273.15) * 9 / 5 + 32, 1)
