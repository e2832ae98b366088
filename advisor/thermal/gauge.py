"""The dome thermometer: what its stem feels, how late, how far off, and how it is read."""

import numpy as np


def sensed(t_gas, t_wall, wall_share):
    """Temperature [K] a stem settles at between gas and the wall that radiates to it; wall_share 0..0.5."""
    return t_gas + wall_share * (t_wall - t_gas)


def lag_step(shown, felt, tau, dt):
    """First-order lag over dt [s]: 63.2 % of a step after tau, 98 % after 4 tau. No lag for tau = 0."""
    share = -np.expm1(-dt / np.maximum(tau, 1e-9))
    return shown + (felt - shown) * share


def as_read(shown_f, offset_f=0.0, rounding_f=5.0):
    """What a person reads [F]: offset added, rounded to the nearest mark; 0 leaves it unrounded."""
    shown_f = np.asarray(shown_f, float) + offset_f
    return shown_f if rounding_f == 0 else np.round(shown_f / rounding_f) * rounding_f
