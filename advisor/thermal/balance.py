"""Heat, oxygen and charcoal balances of a cooker: the rate of change of every row of the state."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import combustion, draught, food, lid, walls
from .air import CP_FLUE, OXYGEN_SHARE, R_AIR
from .state import (
    ASH,
    BODY,
    BOWL,
    CINDERS,
    COAL,
    DOME,
    FAST,
    FOOD,
    FOOD_MASS,
    GAS,
    GAUGE,
    LAYERS,
    LIT,
    OXYGEN,
    PLATE,
    UNLIT,
    VOLATILE,
    WALLS,
    WALLS_COUNT,
    WATER,
    Controls,
    Fixed,
)

FACES = [COAL, PLATE, DOME.start, BODY.start, BOWL.start]  # what radiates inside
SEEN = [1, 2, 4]  # faces the coals see: plate, dome, bowl
GAP_AIR = 2.5  # W/(m2 K), still air in a 10 mm gap between bowl and shell, k/d
GAS_RADIATION = 2.0  # W/(m2 K), flue gas with some CO2 and steam over 0.4 m at 100-300 C; from memory
PAIRED = ([1, 1, 3, 1], [2, 3, 2, 4])  # plate to dome, plate to body, body to dome, plate to bowl


class Fluxes(NamedTuple):
    """What crosses the border of each cooker (n,): air in and traded [kg/s], oxygen used [kg/s],
    heats [W].
    """

    inflow: np.ndarray
    exchange: np.ndarray
    oxygen_used: np.ndarray
    burned: np.ndarray
    heat: np.ndarray
    outer_loss: np.ndarray
    flue_loss: np.ndarray
    steam_loss: np.ndarray


class Fire(NamedTuple):
    """The fire at one moment (n,): char burned, charcoal caught and gone out, gas driven off [kg/s], heats
    [W].
    """

    used: np.ndarray
    burned: np.ndarray
    caught: np.ndarray
    died: np.ndarray
    fumes: np.ndarray
    glow: np.ndarray
    flame: np.ndarray
    area: np.ndarray
    drawn: np.ndarray


def opening_areas(x: np.ndarray, fixed: Fixed, u: Controls) -> np.ndarray:
    """Open areas (4, n) [m2]: bottom (grate and ash behind it), lower and upper half of the gasket
    leak, top.
    """
    c = fixed.c
    grate = combustion.grate_area(c.grate_clean, x[ASH], c.ash_full)
    opened = u.set_up(fixed)
    area = np.empty((4, fixed.n))
    area[0] = draught.series_area(opened.slot, grate)
    area[1:3] = 0.5 * c.leak
    area[3] = opened.top
    return area


def air_flows(x: np.ndarray, fixed: Fixed, u: Controls) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """(air in at the bottom, all air in, air traded at top vent and lid) [kg/s], each (n,)."""
    rho_in = fixed.weather.pressure / (R_AIR * x[GAS])
    area = opening_areas(x, fixed, u)
    head = draught.heads(fixed.heights, fixed.rho_out, rho_in, u.set_up(fixed).gusts)
    flow = draught.flows(area, head, fixed.rho_out, rho_in) * (fixed.c.discharge / draught.SHARP_EDGE)
    entering = np.maximum(flow, 0.0)
    exchange = draught.exchange_flow(area[3], fixed.rho_out, rho_in, flow[3])
    if np.any(u.crack):
        exchange = exchange + lid.exchange_rate(u.crack, fixed.c.lid_width, fixed.rho_out, rho_in)
    return entering[0], entering.sum(axis=0), exchange


def fire(x: np.ndarray, fixed: Fixed, bottom_air: np.ndarray) -> Fire:
    """Burning, spreading and dying of the lit charcoal."""
    c, lit = fixed.c, x[LIT]
    alive = combustion.aliveness(x[COAL], c.t_out)
    area = combustion.coal_area(lit, c.bulk_density, c.exposed, c.bed_area)
    drawn = c.recirculation * np.sqrt(area / c.bed_area)
    fresh_air = (1.0 - c.bypass) * bottom_air
    through = fresh_air + drawn
    oxygen = fresh_air * OXYGEN_SHARE + drawn * x[OXYGEN]
    units = c.transfer * lit * alive / np.maximum(through, 1e-9)
    share = combustion.oxygen_use(lit, c.transfer, through, alive)
    used = oxygen * share
    at_coals = oxygen / (through * OXYGEN_SHARE + 1e-12) * share / np.maximum(units, 1e-6)
    catching = combustion.aliveness(x[COAL], c.t_out + c.catch_above)
    caught = combustion.spread_rate(lit, x[UNLIT], at_coals, catching, c.spread, c.reach)
    died = combustion.dying_rate(lit, alive, c.dying)
    fumes = caught * x[VOLATILE] / np.maximum(x[UNLIT], 1e-9)
    flaming = combustion.volatile_oxygen(fumes * fixed.fuming, x[OXYGEN])
    flame = flaming * combustion.VOLATILE_HEAT_PER_O2 - fumes * (1.0 - fixed.fuming) * combustion.WATER_HEAT
    return Fire(
        used + flaming,
        used / fixed.fuel_o2,
        caught,
        died,
        fumes,
        used * fixed.heat_per_o2,
        flame,
        area,
        drawn * share + flaming / (x[OXYGEN] + 0.03),
    )


def rates(x: np.ndarray, fixed: Fixed, u: Controls) -> tuple[np.ndarray, np.ndarray, Fluxes]:
    """(dx/dt (ROWS, n), relaxation rates [1/s] of the FAST rows (len(FAST), n), fluxes)."""
    c, gas, coal, plate = fixed.c, x[GAS], x[COAL], x[PLATE]
    bottom_air, inflow, exchange = air_flows(x, fixed, u)
    f = fire(x, fixed, bottom_air)
    dx, fast = np.zeros_like(x), np.zeros((len(FAST), x.shape[1]))
    into_walls, outer_loss, wall_u, wall_heat = _walls(x, fixed, u)
    fourth = x[FACES]
    fourth *= fourth
    fourth *= fourth
    rad = fixed.coal_sigma * f.area * fixed.views * (fourth[0] - fourth[SEEN])
    between = fixed.pair_sigma * (fourth[PAIRED[0]] - fourth[PAIRED[1]])
    plate_h = GAS_RADIATION + walls.inside_convection(gas - plate, 0.5 * c.width, c.stirring)
    plate_ha = 2.0 * fixed.plate_face * plate_h
    coal_ha = c.coal_h * f.area
    # into the walls and the plate
    into_walls[0, 0] += rad[1] + between[0] + between[2]
    into_walls[1, 0] += between[1] - between[2]
    into_walls[2, 0] += rad[2] + between[3]
    dx[PLATE] = (rad[0] + plate_ha * (gas - plate) - between[0] - between[1] - between[3]) / fixed.plate_cp
    # coals
    store = (x[LIT] + CINDERS) * fixed.coal_cp
    above = fixed.coal_cp * (coal - fixed.ambient)
    dx[COAL] = (
        (1.0 - c.gas_share) * f.glow - (rad[0] + rad[1] + rad[2]) - coal_ha * (coal - gas) - f.caught * above
    ) / store
    # gas
    flue = (inflow + exchange) * CP_FLUE
    gas_store = fixed.weather.pressure * c.volume / (R_AIR * gas) * CP_FLUE
    leaving = flue * (gas - fixed.ambient)
    to_gas = c.gas_share * f.glow + f.flame + coal_ha * (coal - gas) + (f.burned + f.died + f.fumes) * above
    drawn, steam = 0.0, np.zeros_like(gas)
    if np.any(x[FOOD_MASS]):
        drawn, steam, fast[4:] = _food(x, fixed, dx)
    dx[GAS] = (to_gas - wall_heat - plate_ha * (gas - plate) - leaving - drawn) / gas_store
    air_mass = gas_store / CP_FLUE
    dx[OXYGEN] = (
        (inflow + exchange) * (OXYGEN_SHARE - x[OXYGEN]) - f.used - (f.burned + f.fumes) * x[OXYGEN]
    ) / air_mass
    # fuel, walls, gauge
    dx[LIT] = f.caught - f.fumes - f.burned - f.died
    dx[UNLIT] = f.died - f.caught
    dx[VOLATILE] = -f.fumes
    dx[ASH] = f.burned * fixed.char_ash
    dx[WALLS] = (into_walls / fixed.layer_cp[:, None, :]).reshape(x[WALLS].shape)
    dx[GAUGE] = (gas + c.gauge_wall_share * (x[DOME.start] - gas) - x[GAUGE]) / c.gauge_tau
    fast[GAS] = (flue + coal_ha + plate_ha + wall_u) / gas_store
    fast[OXYGEN] = (inflow + exchange + f.drawn + f.burned + f.fumes) / air_mass
    fast[COAL] = (4.0 * fixed.coal_sigma * f.area * coal * coal * coal + coal_ha) / store
    fast[GAUGE] = 1.0 / c.gauge_tau
    return (
        dx,
        fast,
        Fluxes(inflow, exchange, f.used, f.burned + f.fumes, f.glow + f.flame, outer_loss, leaving, steam),
    )


def _walls(x, fixed, u):
    """Heat into each wall layer [W] (walls, L, n), loss outside [W], gas-side conductance [W/K], heat from
    the gas [W].
    """
    layers = x[WALLS].reshape(WALLS_COUNT, LAYERS, -1)
    gas_h = GAS_RADIATION + walls.inside_convection(
        x[GAS] - layers[:, 0], 0.5 * fixed.c.width, fixed.c.stirring
    )
    gas_ha = fixed.gas_area * gas_h / (1.0 + gas_h * fixed.half)
    from_gas = gas_ha * (x[GAS] - layers[:, 0])
    lost, across = _outwards(layers, fixed, u)
    onward = walls.conduction(layers, fixed.step_ua)
    into = np.zeros_like(layers)
    into[:, 0] += from_gas
    into[:, :-1] -= onward
    into[:, 1:] += onward
    into[:2, -1] -= lost
    into[2, -1] -= across
    into[1, 0] += across
    return into, lost.sum(axis=0), gas_ha.sum(axis=0), from_gas.sum(axis=0)


def _outwards(layers, fixed, u):
    """Heat lost outside by dome and body (2, n), and heat from the bowl across the gap to the body
    (n,) [W].
    """
    outer = layers[:2, -1]
    warmer = outer - fixed.ambient
    out_h = fixed.calm_base + fixed.calm_slope * np.sqrt(np.sqrt(np.abs(warmer)))
    out_h = np.maximum(out_h, u.set_up(fixed).wind_h)
    out_h = out_h + walls.radiation_coefficient(outer, fixed.ambient, fixed.c.emissivity)
    lost = fixed.outer_area[:2] * out_h / (1.0 + out_h * fixed.half[:2]) * warmer
    bowl, body = layers[2, -1], layers[1, 0]
    gap_h = GAP_AIR + walls.radiation_coefficient(bowl, body, fixed.pair_emissivity)
    return lost, fixed.outer_area[2] * gap_h * (bowl - body)


def _food(x, fixed, dx):
    """Fill the food's rows of dx; (heat drawn from gas and dome, heat in steam [W], rates of the shells [1/s])."""
    mass, shells = x[FOOD_MASS], x[FOOD]
    h = 4.0 + walls.inside_convection(x[GAS] - shells[-1], 0.2, fixed.c.stirring)
    humidity = fixed.weather.humidity + 0.03
    into, drawn, lost = food.heat_flows(shells, x[GAS], x[DOME.start], mass, x[WATER], humidity, h)
    dx[FOOD] = into / (np.maximum(mass, 1e-9) * food.CP / food.SHELLS)
    dx[WATER] = -lost
    return drawn, lost * food.LATENT, food.shell_rates(shells, x[DOME.start], mass, x[WATER], h)


def stored_heat(x: np.ndarray, fixed: Fixed) -> np.ndarray:
    """Heat held above the surroundings by coals, plate, walls and food [J] (n,); the gas holds next to
    nothing.
    """
    a = fixed.ambient
    coals = (x[LIT] + CINDERS) * fixed.coal_cp * (x[COAL] - a)
    layers = (fixed.layer_cp[:, None, :] * (x[WALLS].reshape(WALLS_COUNT, LAYERS, -1) - a)).sum(axis=(0, 1))
    meat = x[FOOD_MASS] * food.CP * (x[FOOD].mean(axis=0) - a)
    return coals + fixed.plate_cp * (x[PLATE] - a) + layers + meat
