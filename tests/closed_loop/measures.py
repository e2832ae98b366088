"""What two hours came to, cooker by cooker."""

from dataclasses import dataclass

import numpy as np

BAND_F, STAY_MIN, FORECAST_STAY_MIN = 15.0, 30, 10


@dataclass
class Measured:
    """Arrays (n,). back_min: until within 15 °F for 30 minutes (inf: never); degree_hours of error; undershoot_f below
    the target at worst; near_min: first time within the band for ten minutes.
    """

    back_min: np.ndarray
    degree_hours: np.ndarray
    undershoot_f: np.ndarray
    moves: np.ndarray
    lids: np.ndarray
    flashes: np.ndarray
    lost: np.ndarray

    def part(self, which: np.ndarray) -> "Measured":
        return Measured(*(getattr(self, name)[which] for name in self.__dict__))

    def joined(self, other: "Measured") -> "Measured":
        return Measured(*(np.concatenate([getattr(self, name), getattr(other, name)]) for name in self.__dict__))


def first_stay(path_f: np.ndarray, target_f: np.ndarray, stay: int) -> np.ndarray:
    """First minute (n,) from which each column of path_f (minutes, n) stays within the band for `stay` minutes."""
    inside = np.abs(path_f - target_f) <= BAND_F
    run = np.vstack([np.zeros((1, inside.shape[1])), np.cumsum(inside, axis=0)])
    stays = run[stay + 1:] - run[:-stay - 1] > stay
    return np.where(stays.any(axis=0), stays.argmax(axis=0), np.inf)


def measure(path_f: np.ndarray, target_f: np.ndarray, log: dict, lost: np.ndarray) -> Measured:
    """path_f: true dome (minutes + 1, n)."""
    error = path_f - target_f
    started_under = np.minimum(error[0], 0.0)
    return Measured(first_stay(path_f, target_f, STAY_MIN), np.abs(error[:-1]).sum(axis=0) / 60.0,
                    np.maximum(0.0, -(error.min(axis=0) - started_under)), log["moves"], log["lids"], log["flashes"],
                    lost.astype(int))
