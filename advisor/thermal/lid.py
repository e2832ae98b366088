"""The lid: how fast a crack or an open lid trades hot gas for cold air, and what rushes in on a
starved fire.
"""

import numpy as np

from .air import GRAVITY

SIDE_OPENING = 0.2  # Cd / 3 with Cd 0.6: counterflow through one tall opening (single-sided ventilation)


def exchange_rate(crack, width, rho_out, rho_in):
    """Mass flow [kg/s] traded through a lid opened by crack [m] along width [m] of its rim.

    Cd/3 A sqrt(g H drho/rho), the counterflow of one vertical opening (textbook single-sided ventilation,
    from
    memory). Check: 50 mm x 0.7 m, 1.2 over 0.75 kg/m3 -> 3.6 g/s. Nothing when shut or at equal densities.
    """
    lightness = np.maximum(rho_out - rho_in, 0.0) / rho_out
    return SIDE_OPENING * rho_out * crack * width * np.sqrt(GRAVITY * crack * lightness)


def flash_danger(oxygen, t_coal, starved_oxygen=0.07, glowing=800.0):
    """True where air let in suddenly may flash: gas starved of oxygen (mass share) over glowing coals [K].

    Flames weaken below about 14 % O2 by volume (fire-service articles); half of that by mass is taken as
    starved.
    """
    return (oxygen < starved_oxygen) & (t_coal > glowing)


def burped(gas, oxygen, ambient, fresh_oxygen, rate, air_mass, seconds):
    """(gas [K], oxygen share) after a lid cracked for some seconds trades air at rate [kg/s] with air_mass
    [kg].

    Well-stirred: the share exp(-rate t / M) of the old gas stays. Nothing changes for no time or no rate.
    """
    stays = np.exp(-rate * seconds / air_mass)
    return 1.0 / (stays / gas + (1.0 - stays) / ambient), fresh_oxygen + stays * (oxygen - fresh_oxygen)
