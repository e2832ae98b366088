"""What a dome is foretold to do: against a filter in plain matrices, against domes made to answer exactly, and against the
handbook's thick wall."""

from math import log, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar
from scipy.stats import norm

from advisor.response import (
    DRIFT_VAR,
    LOOKS_AHEAD,
    MOVE_VAR,
    PACE_VAR,
    READING_VAR,
    SHAPES,
    SWING_SD,
    SWINGS,
    USUAL_SWING,
    Start,
    foretell,
)
from advisor.thermal import walls

NAMES = {shape.__name__: shape for shape in SHAPES}
ENDS_AT = 40.0


# -- a second filter ------------------------------------------------------------------------------------------------

def step_of(minutes: float, fades: float) -> np.ndarray:
    """Transition (2, 2) of level and fading pace: the integral of exp(-t / fades) moves the level."""
    return np.array([[1.0, fades * (1.0 - np.exp(-minutes / fades))], [0.0, np.exp(-minutes / fades)]])


def answered(swing, shape, moves, at):
    return swing * sum(change * shape(at - minute) for minute, change in moves if minute < at)


def filtered(swing, shape, readings, moves, start, noise):
    """(log likelihood, state (2,)) by Kalman's equations in matrices (Kalman 1960), the update in Joseph's form."""
    x = np.array([readings[0][1] - answered(swing, shape, moves, readings[0][0]), start.pace])
    p, measures = np.diag([start.level_sd**2, start.pace_sd**2]), np.array([[1.0, 0.0]])
    said, last = 0.0, readings[0][0]
    for minute, read in readings:
        f, passed = step_of(minute - last, start.fades), minute - last
        moved = sum(min(1.0, abs(change)) for at, change in moves if last <= at < minute)
        x = f @ x
        p = f @ p @ f.T + np.diag([DRIFT_VAR * noise * passed + MOVE_VAR * moved, PACE_VAR * passed])
        var = (measures @ p @ measures.T).item() + READING_VAR * noise
        missed = read - answered(swing, shape, moves, minute) - x[0]
        said += norm.logpdf(missed, scale=sqrt(var))
        gain = p @ measures.T / var
        rest = np.eye(2) - gain @ measures
        x, p, last = x + gain[:, 0] * missed, rest @ p @ rest.T + gain @ gain.T * READING_VAR * noise, minute
    return said, x


def second_opinion(readings, moves, now, start, noise):
    """(ahead (3,), change): every swing and shape filtered alone, weighed, and the best change found by trying."""
    cells = [(swing, shape, *filtered(swing, shape, readings, moves, start, noise)) for shape in SHAPES for swing in SWINGS]
    logs = np.array([said + norm.logpdf(log(swing), log(USUAL_SWING), SWING_SD) for swing, _, said, _ in cells])
    weights = np.exp(logs - logs.max()) / np.exp(logs - logs.max()).sum()
    offs = np.array([[(step_of(now + look - readings[-1][0], start.fades) @ x)[0] + answered(swing, shape, moves, now + look)
                      for look in LOOKS_AHEAD] for swing, shape, _, x in cells])
    gains = np.array([[swing * shape(look) for look in LOOKS_AHEAD] for swing, shape, _, _ in cells])
    left = minimize_scalar(lambda change: weights @ ((offs + change * gains) ** 2).sum(axis=1))
    return weights @ offs, left.x


PASTS = st.lists(st.tuples(st.floats(0.5, 9.0), st.floats(-80.0, 80.0)), min_size=1, max_size=8)
MOVES = st.lists(st.tuples(st.floats(-10.0, 60.0), st.floats(-2.0, 2.0)), max_size=4)


@settings(max_examples=40, deadline=None)
@given(PASTS, MOVES, st.floats(0.0, 10.0), st.builds(Start, st.floats(-2, 2), st.floats(0.2, 2), st.floats(3, 20), st.floats(5, 20)),
       st.sampled_from([1.0, 3.0]))
def test_it_says_what_a_filter_in_plain_matrices_says(past, moves, later, start, noise):
    minutes = np.cumsum([gap for gap, _ in past])
    readings = [(float(minute), off) for minute, (_, off) in zip(minutes, past, strict=True)]
    now = readings[-1][0] + later
    moves = sorted((minute, change) for minute, change in moves if minute <= now)
    told = foretell(readings, moves, now, start, noise)
    ahead, change = second_opinion(readings, moves, now, start, noise)
    assert told.ahead == pytest.approx(ahead, abs=1e-6)
    assert told.change == pytest.approx(change, abs=1e-4)


# -- domes that answer exactly --------------------------------------------------------------------------------------

def dome(swing, shape, moves, rests=12.0):
    """°F off the target of a dome that rested there before its vents were moved."""
    return lambda minute: rests + answered(swing, shape, moves, minute)


def looked_at(made, until=ENDS_AT):
    return [(float(minute), float(5 * round(made(minute) / 5))) for minute in np.arange(0.0, until + 1, 4.0)]


@pytest.mark.parametrize("swing", [12.0, 25.0, 60.0])
@pytest.mark.parametrize("name", NAMES)
def test_a_dome_that_answers_exactly_is_foretold_and_brought_to_the_target(name, swing):
    """Read to 5 °F, two moves made: it heads within a dial's step or two of where it really goes."""
    shape, moves = NAMES[name], [(10.0, 0.6), (28.0, -0.9)]
    made = dome(swing, shape, moves)
    told = foretell(looked_at(made), moves, ENDS_AT)
    for look, off in zip(LOOKS_AHEAD, told.ahead, strict=True):
        assert off == pytest.approx(made(ENDS_AT + look), abs=4.0 + 0.1 * swing)
    brought = dome(swing, shape, [*moves, (ENDS_AT, told.change)])
    assert max(abs(brought(ENDS_AT + look)) for look in LOOKS_AHEAD[1:]) < 5.0 + 0.15 * swing


@pytest.mark.parametrize("name", NAMES)
def test_readings_show_how_strongly_a_cooker_answers(name):
    moves = [(6.0, 0.7), (22.0, -0.7)]
    little, much = (foretell(looked_at(dome(swing, NAMES[name], moves)), moves, ENDS_AT).swing_f for swing in (8.0, 90.0))
    assert little < 0.7 * USUAL_SWING and much > 1.8 * USUAL_SWING


@given(st.floats(5.0, 60.0), st.sampled_from([-1.0, 1.0]), st.floats(6.0, 40.0))
def test_a_steady_dome_off_the_target_asks_for_a_move_the_right_way(off, side, lasts):
    readings = [(minute, side * off) for minute in np.linspace(0.0, lasts, 4)]
    told = foretell(readings, [], lasts)
    assert told.ahead == pytest.approx([side * off] * 3, abs=1.0)
    assert told.change * side < 0.0


def test_the_further_off_the_larger_the_move():
    changes = [-foretell([(0.0, off), (8.0, off), (16.0, off)], [], 16.0).change for off in (5.0, 10.0, 20.0, 40.0)]
    assert changes == sorted(changes) and changes[-1] == pytest.approx(8.0 * changes[0], rel=0.05)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("swing", [12.0, 60.0])
def test_in_gusts_readings_say_less(name, swing):
    """What is held before any reading keeps more of its weight, and a lone high reading moves less."""
    moves = [(6.0, 0.7), (22.0, -0.7)]
    readings = looked_at(dome(swing, NAMES[name], moves))
    calm, gusty = (foretell(readings, moves, ENDS_AT, noise=noise) for noise in (1.0, 3.0))
    assert unsure_of_swing(gusty) > unsure_of_swing(calm)
    spike = [(0.0, 0.0), (8.0, 0.0), (16.0, 0.0), (20.0, 20.0)]
    assert 0.0 < foretell(spike, [], 20.0, noise=3.0).ahead[1] < foretell(spike, [], 20.0).ahead[1]


def unsure_of_swing(told):
    """Standard deviation of the swing's logarithm, out of log_sd as its docstring composes it."""
    return (told.log_sd - sqrt(READING_VAR) / told.swing_f) / abs(told.change)


def test_a_move_that_still_has_to_show_is_not_made_twice():
    """Once the move that was asked for is made, next to nothing more is asked for, although nothing is seen of it yet."""
    still = [(0.0, 20.0), (8.0, 20.0), (16.0, 20.0)]
    asked = foretell(still, [], 16.0).change
    assert abs(foretell(still, [(16.0, asked)], 17.0).change) < 0.1 * abs(asked)


# -- the shapes -----------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_begins_at_nothing_and_never_goes_back(shape):
    values = [shape(t) for t in np.linspace(0.0, 120.0, 500)]
    assert values[0] == 0.0 and values == sorted(values) and values[-1] < 2.0


@pytest.mark.parametrize("shape", SHAPES)
def test_a_swing_is_what_shows_after_twenty_minutes(shape):
    assert shape(20.0) == pytest.approx(1.0, abs=0.06)


def surface_under_flux(minutes: np.ndarray) -> np.ndarray:
    """Surface of a thick wall under a constant flux, layer by layer with the walls of thermal/; 1 mm layers of fired clay."""
    k, rho, cp, dx, dt = 1.2, 2000.0, 900.0, 1e-3, 0.5
    layers, shown = np.zeros((300, 1)), []
    for n in range(int(minutes[-1] * 60 / dt) + 1):
        if n * dt / 60 >= minutes[len(shown)]:
            shown.append(layers[0, 0] + 500.0 * dx / 2 / k)
        flow = walls.conduction(layers, k / dx)
        into = np.concatenate([[[500.0]], flow]) - np.concatenate([flow, [[0.0]]])
        layers = layers + dt * into / (rho * cp * dx)
    return np.array(shown)


def test_a_thick_wall_warms_with_the_square_root_of_time():
    """Semi-infinite solid, constant flux q: surface rise 2 q/k sqrt(alpha t / pi) (Carslaw and Jaeger; handbook relation)."""
    minutes = np.array([2.0, 5.0, 10.0, 20.0, 40.0])
    handbook = 2 * 500.0 / 1.2 * np.sqrt(1.2 / 2000.0 / 900.0 * minutes * 60 / pi)
    assert surface_under_flux(minutes) == pytest.approx(handbook, rel=0.02)
    walled = [NAMES["_walls"](minute + 1.0) for minute in minutes]   # the dial shows nothing for the first minute
    assert np.array(walled) / walled[-2] == pytest.approx(handbook / handbook[-2], rel=1e-6)
