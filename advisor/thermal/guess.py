"""States a cooker may be in, given one reading and what is known: walls, plate, fire and air drawn to agree
with it.
"""

from __future__ import annotations

import numpy as np

from . import air, balance, combustion, food, state, walls
from .known import Known
from .population import Cookers, draw_z, from_z, kind_ranges
from .state import (
    ASH,
    BODY,
    BOWL,
    COAL,
    DOME,
    FOOD,
    GAS,
    GAUGE,
    LAYERS,
    LIT,
    OXYGEN,
    PLATE,
    UNLIT,
    VOLATILE,
    Controls,
    Fixed,
    Surroundings,
)

# W/(m2 K), radiation included: under the dome, by the fire, outside
DOME_H, BODY_H, OUTER_H = 13.0, 20.0, 11.0


def cookers(known: Known, n: int, rng: np.random.Generator, learned=None) -> Cookers:
    """n cookers of the kind, or as learned, with a leaky gasket when it is known to leak."""
    z = learned.draw(n, rng) if learned is not None else draw_z(known.kind, n, rng)
    row = list(kind_ranges(known.kind)).index("leak")
    if known.gasket_leaks is not None and learned is None:
        z[row] = 1.3 + 0.4 * np.abs(z[row]) if known.gasket_leaks else np.minimum(z[row], 0.8)
    deflector = 1.0 if known.deflector_in is None else float(known.deflector_in)
    chosen = from_z(known.kind, z, deflector)
    if known.deflector_in is None:
        chosen.deflector_in = (rng.random(n) < 0.8).astype(float)
    return chosen


def weather(known: Known, n: int, rng: np.random.Generator) -> Surroundings:
    """Surroundings of each member; unknown ambient about 68 F give or take 15."""
    degrees = 68.0 + 15.0 * rng.standard_normal(n) if known.ambient_f is None else np.full(n, known.ambient_f)
    return Surroundings(ambient=air.kelvin(degrees))


def wind(known: Known, n: int, rng: np.random.Generator) -> np.ndarray:
    """Wind [m/s] near the ground at each member's cooker."""
    if known.wind_m_s is not None:
        return known.wind_m_s * rng.uniform(0.5, 1.2, n)
    return rng.uniform(2.5, 7.0, n) if known.windy else np.abs(rng.normal(0.0, 1.2, n))


def openings(known: Known, n: int, rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Vents before the first known move; what was said is taken to be off by a tenth of itself, and
    a hair.
    """

    def near(said):
        return np.clip(said * (1.0 + 0.1 * rng.standard_normal(n)), 0.0, 1.0)

    bottom = rng.uniform(0.15, 0.5, n) if known.bottom is None else near(known.bottom)
    top = np.exp(rng.uniform(np.log(0.05), np.log(0.6), n)) if known.top is None else near(known.top)
    return bottom, top


def _soak_minutes(known: Known, start_min: float, n: int, rng: np.random.Generator) -> np.ndarray:
    spread = np.exp(0.3 * rng.standard_normal(n))
    if known.lit_ago_min is not None:
        minutes = max(known.lit_ago_min + start_min - 8.0, 3.0) * spread
    elif known.soaked is None:
        minutes = 45.0 * spread**2.5
    else:
        minutes = (120.0 if known.soaked else 18.0) * spread
    return np.maximum(minutes, 60.0 * spread) if known.soaked else minutes


def _walls(x, fixed, felt, minutes, past, bowl):
    """Walls part of the way from cold to the profile at rest under the temperature of the past;
    bowl hotter.
    """
    c = fixed.c
    level = fixed.ambient + past * (felt - fixed.ambient)
    lateness = np.linspace(0.75, 1.2, LAYERS)[:, None]
    for rows, thickness, h in ((DOME, c.dome_thickness, DOME_H), (BODY, c.body_thickness, BODY_H)):
        steady = walls.steady_profile(level, fixed.ambient, h, OUTER_H, thickness, c.wall_k, LAYERS)
        tau = thickness * c.wall_density * c.wall_cp / (h + OUTER_H)
        risen = 1.0 - np.minimum(lateness * np.exp(-minutes * 60.0 / tau), 1.0)
        x[rows] = fixed.ambient + risen * (steady - fixed.ambient)
    x[BOWL] = x[BODY][:1] + bowl * (level - x[BODY][:1])


def _fire(x, fixed, u, fuel, rng):
    """Set lit charcoal, its heat and the oxygen so that fire and losses balance; the misfit [F] left over
    (n,).

    Lit mass from the share of the air's oxygen that must be used, coal temperature from the heat it must
    radiate.
    """
    c, n = fixed.c, fixed.n
    x[LIT], x[COAL], x[OXYGEN], x[UNLIT] = 1e-6, x[GAS], 0.1, fuel
    dx, fast, _ = balance.rates(x, fixed, u)
    store = fixed.weather.pressure * c.volume / (air.R_AIR * x[GAS]) * air.CP_FLUE
    conductance = fast[GAS] * store
    power = np.maximum(-dx[GAS] * store, 20.0) / 0.55
    bottom, inflow, traded = balance.air_flows(x, fixed, u)
    wobble = np.exp(0.25 * rng.standard_normal(n))
    for _ in range(3):
        x[OXYGEN] = np.clip(
            air.OXYGEN_SHARE - power / fixed.heat_per_o2 / np.maximum(inflow + traded, 2e-5), 0.01, 0.22
        )
        _burn(x, fixed, bottom, power, fuel, wobble)
        dx, _, fluxes = balance.rates(x, fixed, u)
        power = np.clip(fluxes.heat - dx[GAS] * store / 0.55, 20.0, None)
    x[VOLATILE] = x[UNLIT] * fixed.driven_off * rng.uniform(0.6, 1.0, n)
    return 1.8 * dx[GAS] * store / conductance


def _burn(x, fixed, bottom_air, power, fuel, wobble):
    """Lit mass and coal temperature for a given power [W]. Changes x."""
    c = fixed.c
    fresh, drawn = (1.0 - c.bypass) * bottom_air, 0.35 * c.recirculation
    oxygen = fresh * air.OXYGEN_SHARE + drawn * x[OXYGEN]
    share = np.minimum(power / fixed.heat_per_o2 / np.maximum(oxygen, 1e-9), 0.93)
    lit = -np.log1p(-share) * (fresh + drawn) / c.transfer * wobble
    x[LIT] = np.clip(lit, 0.03, 0.8 * c.reach * fuel)
    x[UNLIT] = np.maximum(fuel - x[LIT], 0.0)
    area = combustion.coal_area(x[LIT], c.bulk_density, c.exposed, c.bed_area)
    flux = (1.0 - c.gas_share) * power / area
    radiant = np.maximum(flux - c.coal_h * 350.0, 0.3 * flux) / fixed.coal_sigma + x[PLATE] ** 4
    x[COAL] = np.clip(np.sqrt(np.sqrt(radiant)), c.t_out - 20.0, 1200.0)


def states(
    known: Known, fixed: Fixed, u: Controls, start_min: float, shown_f: float, rng: np.random.Generator
):
    """(states (ROWS, n) in which the gauge shows shown_f at start_min, how far [F] each is from being at rest
    (n,)).

    Each is drawn from what is unknown; a steady cooker's fire and losses balance, so a large misfit is
    unlikely.
    """
    n, c = fixed.n, fixed.c
    x = np.zeros((state.ROWS, n))
    felt = air.kelvin(shown_f + rng.uniform(-2.5, 2.5, n) - c.gauge_offset)
    hot = shown_f > known.target_f + 20.0
    past = rng.uniform(0.65, 1.0, n) if hot else rng.uniform(0.85, 1.08, n)
    _walls(x, fixed, felt, _soak_minutes(known, start_min, n, rng), past, rng.uniform(0.5, 1.6, n))
    share = c.gauge_wall_share
    x[GAS] = np.maximum((felt - share * x[DOME.start]) / (1.0 - share), fixed.ambient + 1.0)
    x[GAUGE] = felt
    x[PLATE] = np.maximum(x[GAS] + rng.normal(0.0, 25.0, n), x[DOME.start])
    fuel = c.basket * (
        rng.uniform(0.3, 0.9, n)
        if known.fuel_share is None
        else np.clip(known.fuel_share * np.exp(0.2 * rng.standard_normal(n)), 0.03, 1.0)
    )
    heavy = {
        None: rng.uniform(0.0, 0.6, n) ** 2,
        True: rng.uniform(0.4, 1.0, n),
        False: rng.uniform(0.0, 0.1, n),
    }
    x[ASH] = heavy[known.ash_heavy] * c.ash_full
    _food(x, known, fixed)
    return x, _fire(x, fixed, u, fuel, rng)


def _food(x, known, fixed):
    mass = known.food_kg if known.food_kg is not None else (3.0 if known.food_on else 0.0)
    state.put_food_on(x, mass)
    core = air.kelvin(known.core_f if known.core_f is not None else 110.0)
    x[FOOD] = np.linspace(core, max(core, 340.0), food.SHELLS)[:, None] if mass else fixed.ambient
