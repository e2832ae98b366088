"""The state of n cookers as one array (ROWS, n), what drives them, and a state to start from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from . import air, combustion, deflector, draught, food, gauge, walls
from .population import Cookers

LAYERS = 5
GAS, OXYGEN, COAL, GAUGE, PLATE, LIT, UNLIT, ASH, WATER, FOOD_MASS, VOLATILE = range(11)
FOOD = slice(11, 11 + food.SHELLS)
DOME = slice(FOOD.stop, FOOD.stop + LAYERS)
BODY = slice(DOME.stop, DOME.stop + LAYERS)
BOWL = slice(BODY.stop, BODY.stop + LAYERS)
WALLS = slice(DOME.start, BOWL.stop)
FAST = [GAS, OXYGEN, COAL, GAUGE, *range(FOOD.start, FOOD.stop)]  # rows the integrator treats as exponential
ROWS = BOWL.stop
WALLS_COUNT = 3  # dome, body and the fire bowl inside the body
# shares of their inner faces that the gas sweeps; the rest bowl or coals cover
BARE_BODY, BARE_BOWL = 0.6, 0.5
CINDERS = 0.02  # kg of hot ash that keeps the coals' heat store from vanishing with the last ember


@dataclass
class Surroundings:
    """Weather [K, kg/kg, Pa]; the same for all cookers or one figure each."""

    ambient: np.ndarray | float = 293.15
    humidity: np.ndarray | float = 0.008
    pressure: np.ndarray | float = air.STANDARD_PRESSURE


@dataclass
class Controls:
    """What a person and the wind do now: openings 0..1 of full travel, lid crack [m], wind [m/s]."""

    bottom: np.ndarray | float = 0.25
    top: np.ndarray | float = 0.1
    crack: np.ndarray | float = 0.0
    wind: np.ndarray | float = 0.0

    def set_up(self, fixed: Fixed) -> Opened:
        """Areas, wind pressure and forced convection; worked out once, as controls are replaced, never
        changed.
        """
        if getattr(self, "_for", None) is not fixed:
            self._for, self._opened = fixed, Opened.of(self, fixed)
        return self._opened


@dataclass(frozen=True)
class Opened:
    """What controls come to at given cookers: slide and cap [m2], wind pressure [Pa] (4, n), forced h [W/(m2
    K)].
    """

    slot: np.ndarray
    top: np.ndarray
    gusts: np.ndarray | float
    wind_h: np.ndarray | float

    @classmethod
    def of(cls, u: Controls, fixed: Fixed) -> Opened:
        c, windy = fixed.c, bool(np.any(u.wind))
        slot = c.shut_bottom + fixed.slot_area * np.maximum(u.bottom, 0.0)
        top = c.shut_top + c.top_area * np.power(np.maximum(u.top, 0.0), c.vent_shape)
        gusts = (
            draught.wind_pressure(np.asarray(u.wind, float), fixed.wind_on, fixed.rho_out) if windy else 0.0
        )
        return cls(slot, top, gusts, fixed.wind_h(u.wind) if windy else 0.0)


class Fixed:
    """What follows from cookers and weather and stays put during a run (every figure an array (n,))."""

    def __init__(self, c: Cookers, weather: Surroundings):
        self.c, self.weather, self.n = c, weather, c.n
        self._wall_steps: dict[float, np.ndarray] = {}
        self.ambient = np.broadcast_to(np.asarray(weather.ambient, float), (c.n,))
        self.rho_out = air.density(self.ambient, weather.pressure)
        self._set_fuel()
        self._set_areas()
        self._set_walls()

    def _set_fuel(self):
        c = self.c
        volatile = np.maximum(1.0 - c.carbon - c.ash_share - c.moisture, 0.03)
        solid = c.carbon / (c.carbon + c.ash_share)
        self.driven_off = volatile + c.moisture
        self.fuming = volatile / self.driven_off
        self.fuel_o2 = combustion.char_oxygen(solid, c.co_share)
        self.heat_per_o2 = combustion.char_heat(solid, c.co_share) / self.fuel_o2
        self.coal_cp = combustion.CHAR_CP * (1.0 + c.nest)
        self.char_ash = c.ash_share / (c.carbon + c.ash_share)

    def _set_areas(self):
        c = self.c
        self.slot_area = c.bottom_slot * c.bottom_travel
        self.heights = np.stack(
            [np.zeros(c.n), c.leak_height - c.leak_band, c.leak_height + c.leak_band, c.top_height]
        )
        side = 0.5 * (c.wind_bottom + c.wind_top)
        self.wind_on = np.stack([c.wind_bottom, side, side, c.wind_top])
        self.plate_cp = deflector.plate_capacity(c.deflector_mass, c.grate_mass, c.deflector_in)
        self.plate_face = c.plate_area * (0.3 + 0.7 * c.deflector_in)
        self.views = np.stack(deflector.view_shares(c.deflector_in))
        gap = np.maximum(np.pi / 4 * c.width**2 - self.plate_face, 0.0)
        self.pair_emissivity = deflector.effective_emissivity(c.emissivity, c.emissivity)
        pair = self.pair_emissivity * walls.STEFAN_BOLTZMANN
        seen = np.stack([self.plate_face, 0.3 * self.plate_face, gap, 0.6 * self.plate_face])
        self.pair_sigma = pair * seen
        self.coal_sigma = c.emissivity * walls.STEFAN_BOLTZMANN

    def _set_walls(self):
        c = self.c
        thickness = np.stack([c.dome_thickness, c.body_thickness, c.bowl_thickness])
        self.wall_area = np.stack([c.dome_area, c.body_area, c.bowl_area])
        ratio = np.stack([c.outer_ratio, c.outer_ratio, 1.2 * c.outer_ratio])
        self.outer_area = self.wall_area * ratio
        self.gas_area = self.wall_area * np.array([1.0, BARE_BODY, BARE_BOWL])[:, None]
        self.spacing = thickness / LAYERS
        self.half = 0.5 * self.spacing / c.wall_k
        mean_area = 0.5 * (self.wall_area + self.outer_area)
        self.layer_cp = c.wall_density * c.wall_cp * self.spacing * mean_area
        self.step_ua = (c.wall_k / self.spacing * mean_area)[:, None, :]
        self.outer_width = c.width + 2 * thickness[:2].mean(axis=0)
        calm = [
            walls.natural_convection_sphere(self.ambient + d, self.ambient, self.outer_width)
            for d in (15.0, 150.0)
        ]
        roots = [15.0**0.25, 150.0**0.25]
        self.calm_slope = (calm[1] - calm[0]) / (roots[1] - roots[0])
        self.calm_base = calm[0] - self.calm_slope * roots[0]

    def wall_step(self, dt: float) -> np.ndarray:
        """(1 - dt/2 J)^-1 of conduction between the layers (walls, L, L, n), kept for the next step of that
        length.
        """
        if dt not in self._wall_steps:
            flow = self.step_ua[:, 0] / self.layer_cp * (0.5 * dt)
            couple = np.zeros((WALLS_COUNT, self.n, LAYERS, LAYERS))
            for i in range(LAYERS - 1):
                couple[:, :, i, i] += flow
                couple[:, :, i, i + 1] -= flow
                couple[:, :, i + 1, i + 1] += flow
                couple[:, :, i + 1, i] -= flow
            self._wall_steps[dt] = np.ascontiguousarray(
                np.linalg.inv(couple + np.eye(LAYERS)).transpose(0, 2, 3, 1)
            )
        return self._wall_steps[dt]

    def wind_h(self, wind):
        """Forced convection outside [W/(m2 K)]; 0 in still air, where natural convection rules."""
        speed = np.abs(np.asarray(wind, float))
        return np.where(
            speed > 0.05, walls.wind_convection_sphere(speed, self.ambient + 30.0, self.outer_width), 0.0
        )


def fresh(fixed: Fixed, lit: float | np.ndarray = 0.06, fuel_share: float | np.ndarray = 0.8) -> np.ndarray:
    """A cold cooker just lit: lit [kg] of glowing charcoal, basket filled to fuel_share. (ROWS, n)."""
    x = np.zeros((ROWS, fixed.n))
    x[[GAS, GAUGE, PLATE]] = fixed.ambient
    x[WALLS] = fixed.ambient
    x[FOOD] = fixed.ambient
    x[OXYGEN] = air.OXYGEN_SHARE
    x[COAL] = 950.0
    x[LIT] = lit
    x[UNLIT] = np.maximum(fuel_share * fixed.c.basket - lit, 0.0)
    x[VOLATILE] = x[UNLIT] * fixed.driven_off
    return x


def shown_f(x: np.ndarray, fixed: Fixed) -> np.ndarray:
    """What the dome thermometer shows [F], unrounded, its own offset included. (n,)."""
    return gauge.as_read(air.fahrenheit(x[GAUGE]), fixed.c.gauge_offset, 0.0)


def dome_f(x: np.ndarray) -> np.ndarray:
    """True temperature of the gas under the dome [F]. (n,)."""
    return air.fahrenheit(x[GAS])


def core_f(x: np.ndarray) -> np.ndarray:
    """Temperature at the centre of the food [F]. (n,)."""
    return air.fahrenheit(x[FOOD.start])


def put_food_on(x: np.ndarray, mass: float, start: float = 277.0) -> None:
    """Food of mass [kg] at start [K] goes on; mass 0 takes it off. Changes x."""
    x[FOOD_MASS] = mass
    x[WATER] = food.WATER_SHARE * mass
    x[FOOD] = start


def add_fuel(x: np.ndarray, fixed: Fixed, mass: float | np.ndarray) -> None:
    """Unlit charcoal [kg] added. Changes x."""
    x[VOLATILE] = x[VOLATILE] + mass * fixed.driven_off
    x[UNLIT] = x[UNLIT] + mass
