"""The plate above the fire (deflector and cooking grate): its heat store and what it hides from the coals."""

import numpy as np

CERAMIC_CP = 850.0  # J/(kg K), cordierite 700-900, from memory
STEEL_CP = 490.0  # J/(kg K), carbon steel, from memory


def plate_capacity(deflector_mass, grate_mass, deflector_in):
    """Heat capacity [J/K] of what stands between fire and dome. 4 kg plate and 2 kg grate -> 4380."""
    return deflector_mass * CERAMIC_CP * deflector_in + grate_mass * STEEL_CP


def view_shares(deflector_in):
    """Shares (plate, dome, lower wall) of the coals' radiation; they sum to 1.

    With a deflector it sees half the radiation and the dome none; without one the grate stops about 15 % and
    the
    dome sees 35 %. Estimated from plain geometry: a bed at the bottom of a bowl under a plate of 0.8 its
    width.
    """
    plate = 0.15 + 0.35 * deflector_in
    dome = 0.35 * (1.0 - deflector_in)
    return plate, dome, 1.0 - plate - dome


def effective_emissivity(first, second):
    """Emissivity of an exchange between two near, parallel grey faces: 1/(1/e1 + 1/e2 - 1). 0.9, 0.9 ->
    0.818.
    """
    return 1.0 / (1.0 / np.asarray(first) + 1.0 / np.asarray(second) - 1.0)
