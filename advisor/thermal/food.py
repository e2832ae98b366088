"""Food as a load: a ball of shells that heats from outside, dries at its surface and stalls.

The stall is not the wet bulb of the cooker's air (that is 35-50 C): radiation warms the surface, and drying
slows
as the surface loses water, so the balance sits higher.
"""

import numpy as np

from .walls import radiation_coefficient

SHELLS = 4
PIECES = 3  # balls a joint is taken apart into, see `radius`
EDGES = np.cbrt(np.arange(SHELLS + 1.0) / SHELLS)[:, None]
CP, RHO, K = 3430.0, 1050.0, 0.49  # J/(kg K), kg/m3, W/(m K): lean beef, 72 % water (published tables)
LATENT = 2.345e6  # J/kg at 65 C (CoolProp)
WATER_SHARE = 0.70  # kg water per kg raw meat
LEWIS_CP = 1012.0  # J/(kg K); mass transfer = h / cp (Lewis number 1)
EMISSIVITY = 0.9  # wet meat, from memory


def saturation_humidity(t, pressure=101325.0):
    """Water [kg/kg dry air] over a wet surface at t [K] (Magnus formula, 0-95 C). Check: 20 C -> 0.0147."""
    c = np.minimum(np.maximum(t - 273.15, -20.0), 95.0)
    vapour = 611.2 * np.exp(17.62 * c / (243.12 + c))
    return 0.622 * vapour / np.maximum(pressure - vapour, 0.05 * pressure)


def evaporation(t_surface, humidity, h, wetness):
    """Water lost [kg/(m2 s)]: wetness x h/cp x (Ws - W), never negative (no condensation is modelled)."""
    return wetness * h / LEWIS_CP * np.maximum(saturation_humidity(t_surface) - humidity, 0.0)


def wetness(water_left, initial):
    """How wet the surface still is, 0..1: falls faster than the water does, the crust dries first
    (assumed).
    """
    left = np.minimum(np.maximum((water_left / np.maximum(initial, 1e-9) - 0.55) / 0.45, 0.0), 1.0)
    return 0.35 * left * np.sqrt(left)


def radius(mass):
    """Radius [m] of each of PIECES balls that together have that mass [kg].

    A joint is flatter than a ball; three balls have its surface and thickness (6 kg: 77 mm against some
    80-100 mm
    of a whole brisket; common practice, no published source).
    """
    return np.cbrt(3.0 * mass / PIECES / (4.0 * np.pi * RHO))


def shell_edges(r):
    """Radii (SHELLS + 1, n) that cut the ball into shells of equal volume, centre first."""
    return EDGES * r


def between(r):
    """Conductance [W/K] from each shell to the next further out (SHELLS - 1, n), middle to middle, all PIECES together."""
    edges = shell_edges(r)
    middle = 0.5 * (edges[1:] + edges[:-1])
    return PIECES * 4.0 * np.pi * K * edges[1:-1] ** 2 / (middle[1:] - middle[:-1])


def heat_flows(shells, t_gas, t_wall, mass, water, humidity, h):
    """(heat into each shell [W] (SHELLS, n), heat drawn from the cooker [W], water lost [kg/s]).

    shells [K], centre first. Zero mass gives zero everywhere. Equal temperatures and dry food exchange
    nothing.
    """
    r = radius(np.maximum(mass, 1e-9))
    up = between(r) * (shells[1:] - shells[:-1])
    surface = PIECES * 4.0 * np.pi * r ** 2 * (mass > 0.0)
    radiant = radiation_coefficient(t_wall, shells[-1], EMISSIVITY) * (t_wall - shells[-1])
    drawn = surface * (h * (t_gas - shells[-1]) + radiant)
    lost = surface * evaporation(shells[-1], humidity, h, wetness(water, WATER_SHARE * mass))
    into = np.zeros_like(shells)
    into[:-1] += up
    into[1:] -= up
    into[-1] += drawn - lost * LATENT
    return into, drawn, lost


def shell_rates(shells, t_wall, mass, water, h):
    """How fast [1/s] each shell (SHELLS, n) settles among its neighbours, for the integrator: thin shells do in a minute, and
    a wet skin near boiling holds itself in seconds.
    """
    r = radius(np.maximum(mass, 1e-9))
    across, rates = between(r), np.zeros_like(shells)
    rates[:-1] += across
    rates[1:] += across
    steam = saturation_humidity(shells[-1])
    drying = wetness(water, WATER_SHARE * mass) * h / LEWIS_CP * LATENT * 0.05 * steam * (1.0 + steam / 0.622)
    radiant = radiation_coefficient(t_wall, shells[-1], EMISSIVITY)
    rates[-1] += PIECES * 4.0 * np.pi * r ** 2 * (h + radiant + drying)
    return rates / (np.maximum(mass, 1e-9) * CP / SHELLS)
