"""Heat, oxygen and charcoal are kept; the integrator agrees with scipy's on the same equations."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from advisor.thermal import air, balance, population, simulate, state
from advisor.thermal.state import Controls, Fixed, Surroundings

RECOVERY = [
    simulate.Move(0, bottom=1.0, top=1.0, crack=0.3),
    simulate.Move(10, crack=0.0),
    simulate.Move(30, bottom=0.25, top=0.4),
    simulate.Move(60, bottom=0.0, top=0.0),
    *simulate.burp(65),
    simulate.Move(75, bottom=0.25, top=0.15),
    simulate.Move(90, food_kg=3.0, wind=2.0),
]


def _fixed(n=1, seed=None, kind="large"):
    c = (
        population.middle(kind, n)
        if seed is None
        else population.sample(kind, n, np.random.default_rng(seed))
    )
    return Fixed(c, Surroundings())


@pytest.mark.parametrize("kind", ["small", "large"])
def test_heat_is_kept(kind):
    fixed = _fixed(30, seed=5, kind=kind)
    x = state.fresh(fixed, 0.1)
    state.put_food_on(x, 2.0, 293.15)
    start = balance.stored_heat(x, fixed)
    r = simulate.run(x, fixed, RECOVERY[:-1], 150.0, dt=10.0)
    kept = balance.stored_heat(r.x, fixed) - start
    gone = r.totals.outer_loss + r.totals.flue_loss + r.totals.steam_loss
    assert np.abs(r.totals.heat - gone - kept).max() < 0.005 * r.totals.heat.max()
    assert (np.abs(r.totals.heat - gone - kept) < 0.005 * np.maximum(r.totals.heat, 1e6)).all()


def test_oxygen_is_kept():
    """All that entered has been burned, has left, or stands in the gas: summed over small steps."""
    fixed = _fixed(20, seed=2)
    x = state.fresh(fixed, 0.1)
    entered, left, used = np.zeros(20), np.zeros(20), np.zeros(20)

    def mass(x):
        return air.density(x[state.GAS]) * fixed.c.volume

    start = mass(x) * x[state.OXYGEN]
    for second in range(3600):
        opened = (
            Controls(1.0, 1.0)
            if second < 1200
            else Controls(0.0, 0.0)
            if second < 2400
            else Controls(0.25, 0.2)
        )
        new, f = simulate.advance(x, fixed, opened, 1.0)
        come = f.inflow + f.exchange
        entered += come * air.OXYGEN_SHARE
        left += (come + f.burned - (mass(new) - mass(x))) * 0.5 * (x + new)[state.OXYGEN]
        used += f.oxygen_used
        x = new
    rest = entered - left - used - (mass(x) * x[state.OXYGEN] - start)
    assert np.abs(rest / entered).max() < 0.005


def test_heat_per_oxygen_lies_between_carbon_monoxide_and_volatiles():
    fixed = _fixed(30, seed=3)
    r = simulate.run(state.fresh(fixed, 0.1), fixed, RECOVERY[:-1], 180.0)
    ratio = r.totals.heat / r.totals.oxygen_used
    assert (ratio > 10.0e6).all() and (ratio < 13.1e6).all()


def test_charcoal_is_kept():
    fixed = _fixed(10, seed=4)
    x = state.fresh(fixed, 0.1)
    r = simulate.run(x, fixed, RECOVERY[:-1], 180.0)
    gone = (x - r.x)[[state.LIT, state.UNLIT]].sum(axis=0)
    assert gone == pytest.approx(r.fuel_used_kg, rel=1e-6)
    assert (r.x[state.ASH] > 0.0).all() and (r.x[state.ASH] < 0.15 * r.fuel_used_kg).all()


def _scipy(x, fixed, u, seconds):
    """The same equations with scipy's stiff integrator; the rows of food, of which there is none,
    left out.
    """
    rows = [
        i
        for i in range(state.ROWS)
        if i not in (state.WATER, state.FOOD_MASS, *range(*state.FOOD.indices(99)))
    ]

    def slope(_, some):
        whole = x.copy()
        whole[rows, 0] = some
        return balance.rates(whole, fixed, u)[0][rows, 0]

    found = solve_ivp(slope, (0.0, seconds), x[rows, 0], method="LSODA", rtol=1e-7, atol=1e-8)
    assert found.success
    last = x.copy()
    last[rows, 0] = found.y[:, -1]
    return last


@pytest.mark.parametrize("dt", [simulate.STEP, 5.0])
def test_integrator_agrees_with_scipy(dt):
    fixed = _fixed()
    x = state.fresh(fixed, 0.15)
    x[state.GAS] = 330.0
    for u, minutes in ((Controls(1.0, 1.0), 25), (Controls(0.0, 0.0), 12), (Controls(0.25, 0.15), 40)):
        theirs = _scipy(x, fixed, u, minutes * 60.0)
        ours = simulate.run(x, fixed, [], minutes, dt=dt, u=u).x
        assert air.fahrenheit(ours[state.GAS]) == pytest.approx(air.fahrenheit(theirs[state.GAS]), abs=1.0)
        assert ours[state.LIT] == pytest.approx(theirs[state.LIT], rel=0.01)
        assert ours[state.WALLS] == pytest.approx(theirs[state.WALLS], abs=0.3)
        x = theirs


def test_halving_the_step_moves_the_dome_by_less_than_one_f():
    fixed = _fixed(40, seed=1)
    x = state.fresh(fixed, 0.15)
    coarse = simulate.run(x, fixed, RECOVERY, 240.0)
    fine = simulate.run(x, fixed, RECOVERY, 240.0, dt=simulate.STEP / 2)
    apart = np.abs(coarse.gauge_f - fine.gauge_f)
    assert np.quantile(apart, 0.99) < 1.0
    assert np.abs(coarse.gauge_f - fine.gauge_f).mean() < 0.2


def test_halving_the_step_for_the_middle_cookers():
    for kind in population.kinds():
        fixed = _fixed(kind=kind)
        x = state.fresh(fixed, 0.15)
        runs = [simulate.run(x, fixed, RECOVERY, 240.0, dt=dt) for dt in (simulate.STEP, simulate.STEP / 2)]
        assert np.abs(runs[0].dome_f - runs[1].dome_f).max() < 1.5  # F, also in the seconds of a burp
        assert np.abs(runs[0].gauge_f - runs[1].gauge_f).max() < 1.0


def test_a_cold_cooker_with_nothing_lit_stays_as_it_is():
    fixed = _fixed()
    x = state.fresh(fixed, 0.0)
    x[state.COAL] = fixed.ambient
    dx, fast, f = balance.rates(x, fixed, Controls(0.25, 0.2))
    assert np.abs(dx).max() < 1e-9 and np.isfinite(fast).all()
    assert float(f.heat[0]) == 0.0 and float(f.outer_loss[0]) == 0.0


def test_rates_are_finite_at_the_edges():
    fixed = _fixed()
    for lit, fuel in ((0.0, 0.0), (0.05, 0.05), (0.5, 1.0)):
        x = state.fresh(fixed, lit, fuel)
        for u in (Controls(0.0, 0.0), Controls(1.0, 1.0, 0.3, 8.0), Controls(0.0, 1.0), Controls(1.0, 0.0)):
            dx, fast, _ = balance.rates(x, fixed, u)
            assert np.isfinite(dx).all() and np.isfinite(fast).all()
