"""Conditions: three answers, ranges, alternatives, and what excludes what."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.conditions import Condition, parse_condition, parse_conditions

NUMBERS = st.floats(-1000, 1000).map(lambda value: round(value, 2))
BOUNDS = st.dictionaries(st.sampled_from(["at_least", "above", "at_most", "below"]), NUMBERS, min_size=1, max_size=3)


@pytest.mark.parametrize("written", [True, "white", 5, ["a", "b"], {"not": "a"}, {"at_least": 3}, {"known": True}])
def test_unknown_is_neither_true_nor_false(written):
    assert parse_condition("fact", written).holds(None) is None


@pytest.mark.parametrize(("written", "yes", "no"), [
    (True, True, False), (False, False, True), ("white", "white", "black"), (5, 5.0, 5.1), (["a", "b"], "b", "c"),
    ({"not": "a"}, "b", "a"), ({"not": ["a", "b"]}, "c", "b"), ({"at_least": 75}, 75.0, 74.99),
    ({"above": 75}, 75.01, 75.0), ({"at_most": 0}, 0.0, 0.01), ({"below": 0}, -0.01, 0.0),
    ({"at_least": 10, "below": 20}, 10.0, 20.0), ({"at_least": 10, "not": 12}, 11.0, 12.0),
])
def test_true_and_false(written, yes, no):
    condition = parse_condition("fact", written)
    assert condition.holds(yes) is True and condition.holds(no) is False


@pytest.mark.parametrize("value", [0.0, False, "", "none", -5.0])
def test_known_holds_for_every_value_also_for_those_that_count_as_nothing(value):
    assert parse_condition("fact", {"known": True}).holds(value) is True


@pytest.mark.parametrize(("written", "says"), [
    ({}, "no test given"), ({"atleast": 3}, "no test atleast; allowed are at_least"), (None, "nothing is no value"),
    ({"at_least": None}, "at_least needs a number, not nothing"), ({"at_least": "75"}, "at_least needs a number"),
    ({"at_least": True}, "at_least needs a number"), ({"known": False}, "write the fact under `unless`"),
    ([["a"]], "is no value"), ({"not": {"a": 1}}, "is no value"),
])
def test_what_can_not_stand_is_refused_in_words(written, says):
    with pytest.raises(ValueError, match=says):
        parse_condition("fact", written)


@pytest.mark.parametrize("written", [{}, [], None, "x", 5])
def test_conditions_must_be_a_mapping(written):
    with pytest.raises(ValueError, match="write facts with what they must be"):
        parse_conditions(written)


def test_the_fact_is_named_in_the_complaint():
    with pytest.raises(ValueError, match="over_f: no test atleast"):
        parse_conditions({"over_f": {"atleast": 5}})


@pytest.mark.parametrize(("one", "other", "answer"), [
    ({"below": 10}, {"at_least": 10}, True), ({"at_most": 10}, {"at_least": 10}, False),
    ({"at_most": 10}, {"above": 10}, True), ({"at_least": 20}, {"at_most": 10}, True), ({"above": 1}, {"above": 5}, False),
    ("a", "b", True), ("a", ["a", "b"], False), (["a", "b"], ["c"], True), ("a", {"not": "a"}, True),
    (5, {"at_least": 6}, True), (5, {"at_least": 5}, False), ({"known": True}, {"below": 0}, False),
])
def test_excludes(one, other, answer):
    one, other = parse_condition("f", one), parse_condition("f", other)
    assert one.excludes(other) is answer and other.excludes(one) is answer


@given(BOUNDS, BOUNDS, st.lists(NUMBERS, min_size=1))
def test_conditions_that_exclude_each_other_never_both_hold(one, other, values):
    one, other = Condition("f", **one), Condition("f", **other)
    near = [bound for c in (one, other) for bound in (c.at_least, c.above, c.at_most, c.below) if bound is not None]
    if one.excludes(other):
        assert not any(one.holds(value) and other.holds(value) for value in [*values, *near])


def test_it_reads_like_a_sentence():
    assert str(parse_condition("over_f", {"at_least": 10, "below": 75})) == "over_f at least 10 and below 75"
    assert str(parse_condition("smoke", {"not": ["none", "white"]})) == "smoke is not none or white"
    assert str(parse_condition("windy", True)) == "windy is true"
    assert str(parse_condition("dome_f", {"known": True})) == "dome_f is known"
