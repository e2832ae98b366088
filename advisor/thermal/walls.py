"""Ceramic wall: conduction in layers, convection and radiation inside, natural, wind and radiant loss
outside.
"""

import numpy as np

from .air import GRAVITY, conductivity, kinematic_viscosity

STEFAN_BOLTZMANN = 5.670374e-8  # W/(m2 K4)
PRANDTL = 0.71  # air, 0-500 C


def radiation(t_hot, t_cold, emissivity=0.9):
    """Net radiant flux [W/m2]: eps sigma (T1^4 - T2^4). Check: 300 K to 250 K, black -> 237.8. Zero
    if equal.
    """
    return emissivity * STEFAN_BOLTZMANN * (t_hot**4 - t_cold**4)


def radiation_coefficient(t_hot, t_cold, emissivity=0.9):
    """Linearised radiant coefficient [W/(m2 K)]. Check: 60 C in 20 C, eps 0.9 -> 6.29."""
    return emissivity * STEFAN_BOLTZMANN * (t_hot * t_hot + t_cold * t_cold) * (t_hot + t_cold)


def natural_convection_sphere(t_surface, t_air, diameter):
    """Outside natural convection [W/(m2 K)] of a sphere: Churchill 1983, Ra up to 1e11 and beyond.

    Nu = 2 + 0.589 Ra^1/4 / F^4/9 (1 + 7.44e-8 Ra / F^16/9)^1/12, F = 1 + (0.469/Pr)^9/16.
    Check: 0.45 m at 60 C in 20 C air -> 4.38. Equal temperatures leave conduction, 2 k / D.
    """
    film = 0.5 * (t_surface + t_air)
    nu = kinematic_viscosity(film)
    rayleigh = GRAVITY * np.abs(t_surface - t_air) / film * diameter**3 * PRANDTL / nu**2
    f = 1.0 + (0.469 / PRANDTL) ** 0.5625
    nusselt = 2.0 + 0.589 * rayleigh**0.25 / f ** (4 / 9) * (1.0 + 7.44e-8 * rayleigh / f ** (16 / 9)) ** (
        1 / 12
    )
    return nusselt * conductivity(film) / diameter


def wind_convection_sphere(speed, t_film, diameter):
    """Forced convection [W/(m2 K)] of a sphere in wind [m/s]: Nu = 2 + (0.4 Re^1/2 + 0.06 Re^2/3) Pr^0.4.

    Whitaker 1972 without its wall-viscosity term, 3.5 < Re < 7.6e4, from memory, held to `ht` by a test.
    """
    re = np.abs(speed) * diameter / kinematic_viscosity(t_film)
    nusselt = 2.0 + (0.4 * np.sqrt(re) + 0.06 * np.cbrt(re) ** 2) * PRANDTL**0.4
    return nusselt * conductivity(t_film) / diameter


def inside_convection(dt, length, stirring=1.0):
    """Inside natural convection [W/(m2 K)]: stirring x 1.42 (dT/L)^1/4; laminar air at a wall, from memory.

    stirring: how much the plume of the fire stirs the air more than a still room, 1-2.5. Zero at equal
    temperatures.
    """
    return 1.42 * stirring * np.sqrt(np.sqrt(np.abs(dt) / length))


def biot(h, half_thickness, k):
    """Biot number; above 0.1 a wall is not one lump. Check: 10, 25 mm, 1.2 -> 0.208."""
    return h * half_thickness / k


def conduction(layers, conductance):
    """Flow from each layer to the next, outwards (..., L - 1, n): Fourier's law between layer centres.

    layers (..., L, n) [K]; conductance k/dx [W/(m2 K)] gives W/m2, k A/dx [W/K] gives W. Nothing if all are
    equal.
    """
    return (layers[..., :-1, :] - layers[..., 1:, :]) * conductance


def steady_profile(t_inner_side, t_air, inner_h, outer_h, thickness, k, count):
    """Layer temperatures (count, n) of a wall at rest between gas at t_inner_side and air at t_air [K]."""
    through = thickness / k
    total = 1.0 / inner_h + through + 1.0 / outer_h
    flux = (t_inner_side - t_air) / total
    centres = ((np.arange(count) + 0.5) / count).reshape((count,) + (1,) * np.ndim(flux))
    return t_inner_side - flux * (1.0 / inner_h + through * centres)
