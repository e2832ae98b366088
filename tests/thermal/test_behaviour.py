"""What every run of the cooker must do, whatever its numbers: cool when shut, dip when burped, live
on air.
"""

import numpy as np
import pytest

from advisor.thermal import population, state
from advisor.thermal.simulate import Cooking, Move, burp, run
from advisor.thermal.state import Controls, Fixed, Surroundings

KINDS = ["small", "medium", "large"]


def _soaked(kind="large", n=20, **changed):
    """Cookers two hours into a cook at a third open, on the way to be shut."""
    c = population.sample(kind, n, np.random.default_rng(9))
    for name, value in changed.items():
        setattr(c, name, np.full(n, value))
    fixed = Fixed(c, Surroundings())
    x = state.fresh(fixed, 0.12)
    lit = [Move(0, bottom=1.0, top=1.0, crack=0.3), Move(10, crack=0.0), Move(30, bottom=0.25, top=0.3)]
    return fixed, run(x, fixed, lit, 150.0).x


@pytest.mark.parametrize("kind", KINDS)
def test_a_shut_cooker_cools_over_hours(kind):
    fixed, x = _soaked(kind, leak=40e-6, shut_bottom=15e-6, shut_top=10e-6)
    shut = run(x, fixed, [Move(0, bottom=0.0, top=0.0)], 600.0, every_min=30.0)
    gone = (shut.dome_f - 68.0) / (shut.dome_f[0] - 68.0)
    assert np.median(gone[4]) > 0.10, "two hours later an insulated cooker is still warm"
    assert (gone[-1] < 0.12).all()
    assert (shut.x[state.LIT] < 0.02).mean() > 0.9


def test_a_burp_vents_hot_air_and_lets_oxygen_in():
    fixed, x = _soaked()
    choked = run(x, fixed, [Move(0, bottom=0.0, top=0.0)], 6.0, u=Controls(0.0, 0.0)).x
    burped = run(choked, fixed, burp(0.0), 10.0 / 60.0, u=Controls(0.0, 0.0)).x
    still = run(choked, fixed, [], 10.0 / 60.0, u=Controls(0.0, 0.0)).x
    assert (burped[state.GAS] < still[state.GAS]).mean() > 0.85  # starved hot coals may flame up at once
    assert np.median(still[state.GAS] - burped[state.GAS]) > 10.0
    assert (burped[state.OXYGEN] > still[state.OXYGEN]).all()


def test_a_starved_fire_recovers_with_air():
    fixed, x = _soaked()
    starved = run(x, fixed, [Move(0, bottom=0.0, top=0.0)], 15.0)
    given = run(starved.x, fixed, [Move(0, bottom=0.5, top=0.5)], 40.0)
    assert np.median(given.dome_f[-1] - starved.dome_f[-1]) > 60.0
    assert (given.dome_f[-1] > starved.dome_f[-1]).mean() > 0.9


def test_an_hour_without_air_puts_a_tight_cooker_out():
    fixed, x = _soaked(leak=20e-6, shut_bottom=10e-6, shut_top=10e-6)
    dead = run(x, fixed, [Move(0, bottom=0.0, top=0.0)], 120.0)
    opened = run(dead.x, fixed, [Move(0, bottom=0.5, top=0.5)], 60.0)
    assert (opened.dome_f[-1] < dead.dome_f[-1] + 5.0).mean() > 0.9


def test_a_leaky_gasket_keeps_it_from_choking():
    shut = {"shut_bottom": 15e-6, "shut_top": 10e-6}
    tight, leaky = _soaked(leak=30e-6, **shut), _soaked(leak=1200e-6, **shut)
    ends = [run(x, fixed, [Move(0, bottom=0.0, top=0.0)], 180.0) for fixed, x in (tight, leaky)]
    assert np.median(ends[1].dome_f[-1]) > np.median(ends[0].dome_f[-1]) + 50.0
    assert (ends[1].x[state.LIT] > 0.02).mean() > 0.7
    assert (ends[0].x[state.LIT] > 0.02).mean() < 0.2


def test_more_opening_is_hotter():
    shown = []
    for top in (0.08, 0.15, 0.3, 0.6):
        fixed, x = _soaked()
        shown.append(np.median(run(x, fixed, [Move(0, top=top)], 120.0, u=Controls(0.25, 0.3)).dome_f[-1]))
    assert shown == sorted(shown)


def test_ash_holds_a_wide_open_fire_down():
    fixed, x = _soaked()
    clogged = x.copy()
    clogged[state.ASH] = fixed.c.ash_full
    wide = [run(start, fixed, [Move(0, bottom=1.0, top=1.0)], 30.0).dome_f[-1] for start in (x, clogged)]
    assert np.median(wide[0] - wide[1]) > 50.0


def test_walls_still_cold_fall_faster_than_soaked_ones():
    c = population.middle("large")
    fixed = Fixed(c, Surroundings())
    lit = [Move(0, bottom=1.0, top=1.0, crack=0.3), Move(10, crack=0.0)]
    young = run(state.fresh(fixed, 0.12), fixed, lit, 32.0)
    old = run(young.x, fixed, [Move(0, bottom=0.25, top=0.22)], 300.0)
    drops = []
    for r in (young, old):
        shut = run(r.x, fixed, [Move(0, bottom=0.0, top=0.0)], 15.0)
        drops.append(1.0 - (shut.gauge_f[-1, 0] - 68.0) / (shut.gauge_f[0, 0] - 68.0))
    assert drops[0] > 1.3 * drops[1]


def test_an_opened_lid_dips_the_gauge_and_comes_back():
    fixed, x = _soaked(n=8)
    moves = [Move(0, crack=0.3), Move(1.0, crack=0.0)]
    r = run(x, fixed, moves, 15.0, u=Controls(0.25, 0.3))
    assert (r.dome_f[1] < r.dome_f[0] - 60.0).all()
    assert (np.abs(r.dome_f[-1] - r.dome_f[0]) < 45.0).all()


def test_wind_cools_the_outside():
    fixed, x = _soaked(n=6, wind_bottom=0.0, wind_top=0.0)
    ends = [run(x, fixed, [Move(0, wind=w)], 90.0, u=Controls(0.25, 0.2)).dome_f[-1] for w in (0.0, 6.0)]
    assert (ends[1] < ends[0]).all()


def test_stepping_is_running():
    c = population.middle("medium")
    cooking = Cooking(c, rounding_f=0.0)
    cooking.reset(0.1, 0.8)
    plan = [(10, Controls(1.0, 1.0, 0.3)), (20, Controls(1.0, 1.0)), (40, Controls(0.25, 0.15))]
    for minutes, u in plan:
        for _ in range(minutes):
            shown = cooking.step(60.0, u)
    fixed = Fixed(c, Surroundings())
    moves = [Move(0, bottom=1.0, top=1.0, crack=0.3), Move(10, crack=0.0), Move(30, bottom=0.25, top=0.15)]
    assert shown.gauge_f == pytest.approx(
        run(state.fresh(fixed, 0.1), fixed, moves, 70.0).gauge_f[-1], abs=1.0
    )
    assert cooking.seconds == pytest.approx(70 * 60.0)


def test_a_driven_cooker_reads_to_five_f_and_can_be_relit_fed_and_raked():
    cooking = Cooking(population.middle("small", 2))
    cooking.reset(0.0, 0.5)
    read = cooking.step(60.0, Controls(0.25, 0.2))
    assert (read.gauge_f % 5.0 == 0.0).all() and read.fire_out.all()
    cooking.light(0.1)
    cooking.add_fuel(0.2)
    cooking.x[state.ASH] = 0.05
    cooking.clear_ash()
    read = cooking.step(600.0, Controls(1.0, 1.0))
    assert not read.fire_out.any() and (read.dome_f > 100.0).all()
    assert (cooking.x[state.ASH] < 0.02).all()


def test_letting_air_in_on_starved_glowing_coals_is_flagged():
    cooking = Cooking(population.middle("large"))
    cooking.reset(0.3, 0.8)
    cooking.step(2400.0, Controls(1.0, 1.0))
    assert cooking.step(90.0, Controls(0.0, 0.0)).flash_danger.all()
    assert not cooking.step(2400.0, Controls(0.0, 0.0)).flash_danger.any()


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_goes_wild_at_the_edges(kind):
    fixed = Fixed(
        population.sample(kind, 40, np.random.default_rng(0), width=2.0), Surroundings(ambient=263.15)
    )
    moves = [
        Move(0, bottom=1.0, top=1.0, crack=0.3),
        Move(5, crack=0.0),
        Move(40, bottom=0.0, top=0.0, wind=12.0),
        *burp(50),
        Move(60, bottom=1.0, top=1.0),
        Move(120, bottom=0.0, top=1.0),
        Move(150, fuel_kg=1.0),
    ]
    r = run(state.fresh(fixed, 0.2, 1.0), fixed, moves, 400.0)
    assert np.isfinite(r.x).all() and (r.dome_f > -10.0).all() and (r.dome_f < 1500.0).all()
