"""Charcoal burnt while the dome thermometer goes along a given curve, for plausible cookers of a kind."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from . import air, state
from .hold import steer
from .population import sample
from .simulate import advance
from .state import Controls, Fixed, Surroundings

MEMBERS = 16
FASTEST_S = 30.0  # short steps while the curve asks for a change
SLOWEST_S, QUIET_F = 120.0, 5.0  # long ones while the dome is within QUIET_F of it; halving both moves the sum by 6 %
WARMTH_F, WARMTH_SD = 68.0, 15.0  # weather nobody told
BOTTOM = 0.5  # the top vent does the steering; the sum hangs on the heat, hardly on which vent lets the air in
WIDEST, NARROWEST = 1.0, 0.01
ASTRAY_F = 30.0  # a cooker whose dome is off the curve by more than this on average did another cook
FEWEST = 5  # cookers that must have followed for their spread to say anything


def burnt_along(curve: Sequence[tuple[float, float]], kind: str, seed: int = 7) -> tuple[float, float, float] | None:
    """(low, likely, high) kilograms, 80 % between low and high, from a cold cooker to the end of `curve` ((minute, °F)).

    Each cooker is steered along the curve by its top vent, so the sum follows from the heat it loses and stores, not from
    vents as told. Food and lid openings are left out. None when too few can follow it. Raises ProfileError for a kind there is none of.
    """
    rng = np.random.default_rng(seed)
    warmth = air.kelvin(WARMTH_F + WARMTH_SD * rng.standard_normal(MEMBERS))
    fixed = Fixed(sample(kind, MEMBERS, rng), Surroundings(ambient=warmth))
    minutes, wanted = np.array(curve).T
    x, top, now, end = state.fresh(fixed, 0.1, 1.0), np.full(MEMBERS, WIDEST), minutes[0], minutes[-1]
    burned, astray, error = np.zeros(MEMBERS), np.zeros(MEMBERS), state.shown_f(x, fixed) - wanted[0]
    while now < end - 1e-9:
        span = SLOWEST_S if np.median(np.abs(error)) < QUIET_F else FASTEST_S
        span = min(span, (end - now) * 60.0)
        x, fluxes = advance(x, fixed, Controls(np.full(MEMBERS, BOTTOM), top), span)
        burned, now = burned + span * fluxes.burned, now + span / 60.0
        before, error = error, state.shown_f(x, fixed) - np.interp(now, minutes, wanted)
        astray += span / 60.0 * np.abs(error)
        top = np.clip(steer(top, error, error - before), NARROWEST, WIDEST)
    followed = astray <= ASTRAY_F * (end - minutes[0])
    if followed.sum() < FEWEST:
        return None
    return tuple(float(value) for value in np.quantile(burned[followed], (0.1, 0.5, 0.9)))
