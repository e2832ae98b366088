"""How a dome answers its vents, told from one cook's own readings: where it heads, and what change of air brings it back.

dome(t) = level(t) + swing * sum of (change of air) * shape(minutes since). Level and its pace drift and are followed by a
Kalman filter (Kalman 1960); swing [°F for each e-fold of air, twenty minutes on] and shape are tried on a grid, weighed by
how well they foretold each reading (Bayes' rule). Shapes span what walls and fire can do: the surface of a thick wall
under a step of heat warms with the square root of time (handbook, semi-infinite solid), a small fire answers late and then
settles, hot gas answers at once; their times and shares are judgement. Nothing here knows a cooker, so nothing is fitted to one.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp, log, sqrt

Marks = Sequence[tuple[float, float]]  # (minute, value), oldest first

SWINGS = (5.0, 8.0, 12.0, 18.0, 27.0, 40.0, 60.0, 90.0, 130.0)  # °F
USUAL_SWING, SWING_SD = 25.0, 0.8   # from the trade's chart at 225-250 °F; sd of its logarithm: judgement
READING_VAR = 12.0      # °F²: a dial read to 5 °F that wavers by 2 or 3; judgement
DRIFT_VAR = 1.0         # °F² a minute: walls, charcoal and weather; judgement
MOVE_VAR = 16.0         # °F² for each e-fold of air: how well hand and model know a move; judgement
PACE_VAR = 0.004        # (°F/min)² a minute: judgement
PACE_FADES_MIN = 15.0   # how long a pace with no cause in the vents lasts: judgement
TURNED_FADES_MIN = 8.0  # after the fire was given its air back, what it did before is sooner over: judgement
LOOKS_AHEAD = (8.0, 15.0, 25.0)     # minutes ahead at which the dome is to be near the target: judgement


def _walls(t: float) -> float:
    return min(sqrt((t - 1.0) / 19.0), 1.5) if t > 1.0 else 0.0


def _late(t: float) -> float:
    return 1.2 * (1.0 - exp((3.0 - t) / 9.0)) if t > 3.0 else 0.0


def _between(t: float) -> float:
    return 0.5 * (_walls(t) + _late(t))


def _quick(t: float) -> float:
    return 1.05 * (1.0 - exp((0.5 - t) / 4.0)) if t > 0.5 else 0.0


SHAPES: tuple[Callable[[float], float], ...] = (_walls, _between, _late, _quick)


@dataclass(frozen=True, slots=True)
class Start:
    """What is held of the pace before the readings speak: pace, sd [°F/min], level_sd [°F], fades [min] of a pace."""

    pace: float = 0.0
    pace_sd: float = 0.7
    level_sd: float = 15.0
    fades: float = PACE_FADES_MIN


@dataclass(frozen=True, slots=True)
class Foretold:
    """ahead: °F off the target at LOOKS_AHEAD if nothing is touched; change: of air (logarithm) that is best made now;
    swing_f: °F for each e-fold of air; log_sd: how sure the change is, as a standard deviation.
    """

    ahead: tuple[float, ...]
    change: float
    swing_f: float
    log_sd: float


def foretell(readings: Marks, moves: Marks, now: float, start: Start = Start(), noise: float = 1.0) -> Foretold:
    """readings: °F off the target, one at least; moves: changes of air; noise: of the readings' variance, gusts have more."""
    gains = _gains(readings, moves, start, noise)
    cells = [cell for shape in SHAPES for cell in _cells(shape, readings, moves, start, gains)]
    best = max(cell.score for cell in cells)
    weighed = [(exp(cell.score - best), cell) for cell in cells]
    total = sum(weight for weight, _ in weighed)
    return _summed([(weight / total, cell) for weight, cell in weighed], moves, now, now - readings[-1][0], start.fades, noise)


@dataclass(frozen=True, slots=True)
class _Gain:
    """At one reading: minutes' worth of pace since the last, what is left of the pace, shares of the surprise that level
    and pace take, and its variance [°F²]."""

    reach: float
    left: float
    to_level: float
    to_pace: float
    surprise: float


@dataclass(frozen=True, slots=True)
class _Cell:
    """One swing and shape: how well it foretold the readings, and the level and pace it leaves."""

    score: float
    swing: float
    shape: Callable[[float], float]
    level: float
    pace: float


def _gains(readings: Marks, moves: Marks, start: Start, noise: float) -> list[_Gain]:
    """The filter's gains, which no swing or shape changes."""
    level, both, pace = start.level_sd ** 2, 0.0, start.pace_sd ** 2
    gains, last = [], readings[0][0]
    for minute, _ in readings:
        reach, left = _faded(minute - last, start.fades)
        moved = sum(min(1.0, abs(change)) for at, change in moves if last <= at < minute)
        level += 2.0 * reach * both + reach ** 2 * pace + DRIFT_VAR * noise * (minute - last) + MOVE_VAR * moved
        both, pace = left * (both + reach * pace), left ** 2 * pace + PACE_VAR * (minute - last)
        surprise = level + READING_VAR * noise
        gain = _Gain(reach, left, level / surprise, both / surprise, surprise)
        gains.append(gain)
        pace -= gain.to_pace * both
        level, both, last = level * (1.0 - gain.to_level), both * (1.0 - gain.to_level), minute
    return gains


def _faded(passed: float, fades: float) -> tuple[float, float]:
    """(minutes' worth that a fading pace still moves, what is left of it) after so long."""
    left = exp(-passed / fades)
    return fades * (1.0 - left), left


def _answered(shape: Callable[[float], float], moves: Marks, at: float) -> float:
    """What all moves have come to by then, for a swing of one."""
    return sum(change * shape(at - minute) for minute, change in moves if minute < at)


def _cells(shape: Callable[[float], float], readings: Marks, moves: Marks, start: Start, gains: list[_Gain]) -> list[_Cell]:
    answered = [_answered(shape, moves, minute) for minute, _ in readings]
    return [_followed(swing, shape, readings, answered, start, gains) for swing in SWINGS]


def _followed(swing: float, shape: Callable[[float], float], readings: Marks, answered: list[float], start: Start,
              gains: list[_Gain]) -> _Cell:
    score = -0.5 * (log(swing / USUAL_SWING) / SWING_SD) ** 2
    level, pace = readings[0][1] - swing * answered[0], start.pace
    for (_, read), done, gain in zip(readings, answered, gains, strict=True):
        level, pace = level + gain.reach * pace, gain.left * pace
        missed = read - level - swing * done
        score -= 0.5 * missed ** 2 / gain.surprise
        level, pace = level + gain.to_level * missed, pace + gain.to_pace * missed
    return _Cell(score, swing, shape, level, pace)


def _summed(cells: list[tuple[float, _Cell]], moves: Marks, now: float, since: float, fades: float,
            noise: float) -> Foretold:
    """What all cells together foretell, and the change with the least expected square of what is then left."""
    ahead, hit, spread = [0.0] * len(LOOKS_AHEAD), 0.0, 0.0
    for weight, cell in cells:
        for n, look in enumerate(LOOKS_AHEAD):
            off = cell.level + _faded(since + look, fades)[0] * cell.pace + cell.swing * _answered(cell.shape, moves, now + look)
            answer = cell.swing * cell.shape(look)
            ahead[n] += weight * off
            hit, spread = hit + weight * answer * off, spread + weight * answer ** 2
    swing = exp(sum(weight * log(cell.swing) for weight, cell in cells))
    log_swing_sd = sqrt(sum(weight * log(cell.swing / swing) ** 2 for weight, cell in cells))
    return Foretold(tuple(ahead), -hit / spread, swing, abs(hit / spread) * log_swing_sd + (READING_VAR * noise) ** 0.5 / swing)
