"""Parameter files and the population drawn from them."""

import numpy as np
import pytest

from advisor.errors import ProfileError
from advisor.thermal import population
from advisor.thermal.state import Fixed, Surroundings

KINDS = ["large", "medium", "small"]


def test_three_kinds_at_least():
    assert population.kinds() == KINDS


@pytest.mark.parametrize("kind", KINDS)
def test_every_number_has_a_unit_a_range_and_a_source(kind):
    for name, r in population.kind_ranges(kind).items():
        assert r.low < r.value < r.high, name
        assert r.unit and len(r.source) > 12, name
        assert r.shape in ("log", "plain"), name
        assert r.shape == "plain" or r.low > 0.0, name


@pytest.mark.parametrize("kind", KINDS)
def test_nine_in_ten_draws_lie_in_the_stated_range(kind):
    c = population.sample(kind, 4000, np.random.default_rng(0))
    for name, r in population.kind_ranges(kind).items():
        value = getattr(c, name)
        inside = ((value >= r.low) & (value <= r.high)).mean()
        assert 0.87 < inside < 0.93, name
        assert np.median(value) == pytest.approx(r.value, rel=0.05, abs=0.5)


def test_wider_draws_reach_outside():
    c = population.sample("large", 2000, np.random.default_rng(0), width=2.0)
    r = population.kind_ranges("large")["leak"]
    assert ((c.leak < r.low) | (c.leak > r.high)).mean() > 0.3


def test_shares_of_charcoal_stay_possible():
    for kind in KINDS:
        fixed = Fixed(population.sample(kind, 2000, np.random.default_rng(1), 1.5), Surroundings())
        assert (fixed.driven_off < 0.6).all() and (fixed.fuming > 0.0).all() and (fixed.fuming < 1.0).all()


def test_sizes_are_in_order():
    small, medium, large = (population.middle(kind) for kind in ("small", "medium", "large"))
    for name in ("volume", "dome_area", "basket", "top_area", "grate_clean", "deflector_mass"):
        assert getattr(small, name) < getattr(medium, name) < getattr(large, name), name


def test_draws_repeat_with_their_seed():
    one, two = (population.sample("large", 5, np.random.default_rng(4)).leak for _ in range(2))
    assert one.tolist() == two.tolist()


def test_an_unknown_kind_is_refused_with_the_kinds_there_are():
    with pytest.raises(ProfileError, match="large"):
        population.kind_ranges("huge")
    with pytest.raises(ProfileError):
        population.kind_ranges("common")


def test_picking_keeps_every_parameter_and_the_deflector():
    c = population.sample("small", 6, np.random.default_rng(2))
    c.deflector_in = np.array([1.0, 0.0, 1.0, 0.0, 1.0, 0.0])
    chosen = c.pick(np.array([5, 5, 0]))
    assert chosen.n == 3 and chosen.deflector_in.tolist() == [0.0, 0.0, 1.0]
    assert chosen.leak.tolist() == [c.leak[5], c.leak[5], c.leak[0]]
