"""Learning: what one cooker's cooks say is found again, saved, loaded, and forecasts with it are sharper."""

import json
from functools import cache

import numpy as np
import pytest
import twins

from advisor.errors import ProfileError, ValueRefused
from advisor.thermal import forecast, learn, population, simulate, state
from advisor.thermal.known import Known, Reading, VentMove
from advisor.thermal.simulate import Move
from advisor.thermal.state import Fixed, Surroundings

NAMES = list(population.kind_ranges("large"))


def cooker(**z):
    """A cooker at the middle but for some parameters, given in normal units."""
    place = np.zeros((len(NAMES), 1))
    for name, value in z.items():
        place[NAMES.index(name)] = value
    return Fixed(population.from_z("large", place), Surroundings())


def cook_of(fixed, top, seed):
    rng = np.random.default_rng(seed)
    moves = [
        Move(0, bottom=1.0, top=1.0, crack=0.3),
        Move(8, crack=0.0),
        Move(25, bottom=0.25, top=0.3),
        Move(45, top=top),
        Move(150, top=1.5 * top),
    ]
    run = simulate.run(state.fresh(fixed, 0.12, 0.8), fixed, moves, 240.0)
    at = (15, 22, 30, 38, 45, 55, 65, 80, 100, 120, 148, 160, 180, 210, 240)
    readings = tuple(Reading(float(t), twins.read(run, t, rng)) for t in at)
    return learn.Cook(
        "large",
        readings,
        tuple(VentMove(m.at_min, m.bottom, m.top) for m in moves[2:]),
        fuel_share=0.8,
        ambient_f=68.0,
    )


@cache
def after_cooks(leak, top_area):
    fixed, known = cooker(leak=leak, top_area=top_area), None
    for k, top in enumerate((0.1, 0.2)):
        known = learn.learn(cook_of(fixed, top, k), known, seed=k)
    return known


def fact(learned, name):
    return next(f for f in learn.facts(learned) if f.name == name)


def test_a_leaky_cooker_is_found_to_leak_more_than_most():
    leak = fact(after_cooks(2.2, 0.0), "leak")
    assert leak.likely > 1.8 * leak.usual and leak.rank > 0.7


def test_a_leaky_cooker_needs_the_top_less_open_and_a_narrow_cap_more():
    leaky, narrow = fact(after_cooks(2.2, 0.0), "top_opening"), fact(after_cooks(0.0, -1.6), "top_opening")
    assert leaky.likely < leaky.usual and narrow.likely > 1.3 * narrow.usual and narrow.sure


def test_the_learned_opening_is_the_right_one():
    fixed = cooker(top_area=-1.6)
    true = float(learn._opening(fixed.c, 275.0)[0])
    found = fact(after_cooks(0.0, -1.6), "top_opening")
    assert found.likely == pytest.approx(true, rel=0.3)


def test_it_sharpens_with_cooks():
    one = learn.learn(cook_of(cooker(), 0.15, 5))
    assert one.cooks == 1
    assert one.z.std(axis=1).mean() < 0.97
    assert after_cooks(0.0, -1.6).cooks == 2


def test_saved_and_loaded_it_is_the_same():
    learned = after_cooks(2.2, 0.0)
    back = learn.Learned.from_data(json.loads(json.dumps(learned.to_data())))
    assert back.kind == learned.kind and back.cooks == 2
    assert back.z == pytest.approx(learned.z, abs=1e-3)


def test_other_versions_and_gaps_are_refused():
    data = after_cooks(2.2, 0.0).to_data()
    with pytest.raises(ProfileError, match="version"):
        learn.Learned.from_data({**data, "version": 99})
    with pytest.raises(ProfileError, match="leak"):
        learn.Learned.from_data(
            {**data, "members": {k: v for k, v in data["members"].items() if k != "leak"}}
        )


def test_no_readings_teach_nothing():
    with pytest.raises(ValueRefused):
        learn.learn(learn.Cook("large", (), ()))


def test_smoothing_keeps_middle_and_spread():
    learned = after_cooks(0.0, -1.6)
    drawn = learned.draw(4000, np.random.default_rng(0))
    assert np.abs(drawn.mean(axis=1) - learned.z.mean(axis=1)).max() < 0.1
    assert drawn.std(axis=1) == pytest.approx(learned.z.std(axis=1), rel=0.12)


def test_forecasts_use_what_was_learned():
    known = Known(275.0, (Reading(0, 275),), bottom=0.25, top=0.15, lit_ago_min=150, soaked=True)
    narrow = forecast.forecast(known, [], learned=after_cooks(0.0, -1.6))[1]
    leaky = forecast.forecast(known, [], learned=after_cooks(2.2, 0.0))[1]
    assert narrow.settles_f[1] < leaky.settles_f[1] - 15.0


@pytest.mark.parametrize(("correct", "low", "high"), [(learn._unshrunk, 0.7, 1.4), (lambda z, effective: z, 0.0, 0.55)])
def test_drawing_again_and_again_takes_no_spread_away(correct, low, high):
    """Weights that know nothing of a parameter, twelve rounds as in three cooks; without the correction it shrinks."""
    spreads = []
    for seed in range(6):
        rng = np.random.default_rng(seed)
        z = rng.standard_normal((len(NAMES), 256))
        for _ in range(12):
            w = rng.exponential(1.0, 256) ** 3
            w /= w.sum()
            kept = correct(z[:, learn.weighing.systematic(w, 96)], learn.weighing.effective_size(w))
            z = learn.Learned("large", kept, 1).draw(256, rng)
        spreads.append(z.var(axis=1).mean())
    assert low < np.mean(spreads) < high
