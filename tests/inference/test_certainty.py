"""Certainty factors: the properties of the published formula, and its worked values."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.facts import Fact
from advisor.inference.certainty import STRONGEST, combine, trusted

WEIGHTS = st.lists(st.floats(-1, 1).map(lambda value: round(value, 3)), max_size=8)
FOR = st.lists(st.floats(0.01, 0.9).map(lambda value: round(value, 3)), min_size=1, max_size=5)


@pytest.mark.parametrize(("weights", "certainty"), [
    ([], 0.0), ([0.6], 0.6), ([-0.4], -0.4), ([0.6, 0.5], 0.8), ([-0.6, -0.5], -0.8), ([0.8, -0.3], 0.5 / 0.7),
    ([0.5, -0.5], 0.0), ([0.4, 0.3, 0.2], 1 - 0.6 * 0.7 * 0.8), ([1, 1], STRONGEST), ([-1], -STRONGEST),
])
def test_worked_values(weights, certainty):
    assert combine(weights) == pytest.approx(certainty)


@given(WEIGHTS)
def test_it_stays_within_bounds(weights):
    assert -1 <= combine(weights) <= 1


@given(WEIGHTS, st.randoms())
def test_the_order_does_not_matter(weights, random):
    shuffled = random.sample(weights, len(weights))
    assert combine(shuffled) == pytest.approx(combine(weights), abs=1e-9)


def test_no_order_of_four_differs():
    found = {round(combine(order), 9) for order in itertools.permutations([0.7, -0.4, 0.2, -0.9])}
    assert len(found) == 1


@given(FOR)
def test_evidence_against_mirrors_evidence_for(weights):
    assert combine([-weight for weight in weights]) == pytest.approx(-combine(weights))


@given(FOR, st.floats(0.01, 0.9))
def test_more_evidence_for_never_makes_it_less_sure(weights, more):
    assert combine([*weights, more]) >= combine(weights) - 1e-12
    assert combine([*weights, -more]) <= combine(weights) + 1e-12


@given(WEIGHTS)
def test_nothing_is_beyond_doubt(weights):
    if all(weight >= 0 for weight in weights):
        assert combine(weights) <= STRONGEST


def test_a_weight_counts_as_far_as_its_weakest_fact_is_trusted():
    said, assumed = Fact("a", True, "said"), Fact("b", True, "assumed")
    assert trusted(0.5, [said]) == 0.5
    assert trusted(0.5, [said, assumed]) == pytest.approx(0.3)
    assert trusted(0.5, []) == 0.5
