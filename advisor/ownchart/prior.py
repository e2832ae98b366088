"""What is believed of a cooker's vent chart before its first cook: the trade's chart and the model's cookers, halfway.

The two agree near 250 °F and part from there: the trade's opening grows fivefold to 325, the model's not quite twofold.
So the slope is left wide enough to hold both.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.ownchart.draught import level
from advisor.rulebook.catalogue import VentChart
from advisor.ventchart import opening_for

KNOTS_F = tuple(float(dome) for dome in range(200, 451, 25))
MIDDLE_F, HUNDRED_F = 275.0, 100.0
# Top opening that holds a temperature in the middle (median) of the thermal model's cookers, ceramic warm, an inch of
# bottom: from the model itself, python tests/ownchart/model_middle.py prints them anew.
MODEL = {
    "small": {225: 0.122, 275: 0.187, 325: 0.255, 400: 0.471},
    "medium": {225: 0.102, 275: 0.150, 325: 0.211, 400: 0.312},
    "large": {225: 0.093, 275: 0.137, 325: 0.182, 400: 0.279},
}
LEVEL_SD = 0.6     # of the logarithm: cookers, charcoals and what is called "open" differ by a factor of two; judgement
SLOPE_SD = 0.6     # of the logarithm for 100 °F: half the way from the trade's 2.0 to the model's 0.8; judgement
BEND_SD, BEND_F = 0.15, 60.0   # how far a chart strays from a straight line, and over how many degrees; judgement


@dataclass(frozen=True)
class Curve:
    """Levels (logarithm of opening and leak) at KNOTS_F: mean (k,), covariance (k, k)."""

    mean: np.ndarray
    covariance: np.ndarray


def prior(chart: VentChart, kind: str = "large") -> Curve:
    """The curve before any cook."""
    at = np.array(KNOTS_F)
    trade = np.array([level(opening_for(chart, dome)) for dome in KNOTS_F])
    known = MODEL[kind]
    model = _straight(at, np.array(list(known), float), np.array([level(opening) for opening in known.values()]))
    off = (at - MIDDLE_F) / HUNDRED_F
    apart = (at[:, None] - at[None, :]) / BEND_F
    covariance = LEVEL_SD ** 2 + SLOPE_SD ** 2 * np.outer(off, off) + BEND_SD ** 2 * np.exp(-0.5 * apart ** 2)
    return Curve(0.5 * (trade + model), covariance)


def _straight(at: np.ndarray, known_at: np.ndarray, known: np.ndarray) -> np.ndarray:
    """Straight lines between known points, the outer ones carried on."""
    found = np.interp(at, known_at, known)
    first, last = ((known[k + 1] - known[k]) / (known_at[k + 1] - known_at[k]) for k in (0, len(known) - 2))
    found += np.where(at < known_at[0], first * (at - known_at[0]), 0.0)
    return found + np.where(at > known_at[-1], last * (at - known_at[-1]), 0.0)
