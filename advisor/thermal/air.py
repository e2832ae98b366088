"""Properties of dry air, and the few temperature conversions the model needs at its edges."""

R_AIR = 287.05  # J/(kg K), specific gas constant of dry air
STANDARD_PRESSURE = 101325.0  # Pa
OXYGEN_SHARE = 0.2314  # kg O2 per kg dry air: 0.2095 mol/mol x 31.998 / 28.965 g/mol
CP_FLUE = 1040.0  # J/(kg K), mean of air at 20 and 400 C; one figure keeps the energy ledger exact
GRAVITY = 9.80665  # m/s2
ZERO_C = 273.15  # K


def kelvin(fahrenheit):
    """Fahrenheit to kelvin. kelvin(212) = 373.15."""
    return (fahrenheit - 32.0) / 1.8 + ZERO_C


def fahrenheit(kelvin_):
    """Kelvin to Fahrenheit. fahrenheit(373.15) = 212."""
    return (kelvin_ - ZERO_C) * 1.8 + 32.0


def density(t, pressure=STANDARD_PRESSURE):
    """Density of air [kg/m3] at t [K], pressure [Pa]; ideal gas, within 0.1 % for 250-1000 K.

    Check: 0.9279 at 107.2 C and 0.6157 at 300 C (CoolProp).
    """
    return pressure / (R_AIR * t)


def heat_capacity(t):
    """cp of air [J/(kg K)] at t [K]; quadratic through CoolProp's 20, 200 and 400 C, 250-750 K within 0.5 %.

    Check: 1012.0 at 107 C.
    """
    c = t - ZERO_C
    return 1005.0 + 0.0455 * c + 0.000283 * c * c


def conductivity(t):
    """Conductivity of air [W/(m K)] at t [K]: power law 0.0241 (t/273)^0.81, 250-700 K within 3 %.

    Source: power-law form of gas-property textbooks, from memory; held to CoolProp by a test.
    """
    return 0.0241 * (t / ZERO_C) ** 0.81


def kinematic_viscosity(t, pressure=STANDARD_PRESSURE):
    """Kinematic viscosity of air [m2/s] at t [K]: Sutherland's law over density, 250-700 K within 3 %.

    mu = 1.458e-6 t^1.5 / (t + 110.4); constants of the US Standard Atmosphere, from memory, held by a test.
    """
    return 1.458e-6 * t**1.5 / (t + 110.4) / density(t, pressure)


def pressure_at(altitude):
    """Pressure [Pa] at an altitude [m]; standard atmosphere, 0-5000 m. Check: 89875 Pa at 1000 m."""
    return STANDARD_PRESSURE * (1.0 - 2.25577e-5 * altitude) ** 5.25588
