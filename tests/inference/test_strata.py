"""Salience: every rule fires after those that can conclude what its `unless` names."""

import pytest

from advisor.errors import InferenceError
from advisor.inference.reasoner import Reasoner
from advisor.inference.strata import salience_of


def test_a_rule_with_unless_fires_later_than_the_makers_of_it(tiny):
    tiny.rule("understand/late", when={"windy": True}, unless={"overshoot": "far"}, then={"know": {"smoke": "white"}})
    tiny.rule("understand/later", when={"dome_f": 1}, unless={"smoke": "white"}, then={"know": {"lid_open": True}})
    levels = salience_of(tiny.rulebook.of("understand", "diagnose"))
    assert levels["understand/far-over--seventy-five"] == 1
    assert levels["understand/late"] == 2 and levels["understand/later"] == 3


def test_a_rule_fires_no_sooner_than_what_its_when_follows_from(tiny):
    tiny.rule("understand/late", when={"windy": True}, unless={"overshoot": "far"}, then={"know": {"smoke": "white"}})
    tiny.rule("diagnose/after", when={"smoke": "white"})
    levels = salience_of(tiny.rulebook.of("understand", "diagnose"))
    assert levels["diagnose/after"] == 2


def test_rules_that_feed_each_other_without_unless_are_no_circle(tiny):
    tiny.rule("understand/a", when={"smoke": "white"}, then={"know": {"lid_open": True}})
    tiny.rule("understand/b", when={"lid_open": True}, then={"know": {"smoke": "white"}})
    assert set(salience_of(tiny.rulebook.of("understand")).values()) == {1}


def test_a_circle_over_two_rules_names_one_of_them_and_the_fact(tiny):
    tiny.rule("understand/x", when={"windy": True}, unless={"lid_open": True}, then={"know": {"smoke": "white"}})
    tiny.rule("understand/y", when={"smoke": "white"}, then={"know": {"lid_open": True}})
    with pytest.raises(InferenceError, match="understand/x waits for itself, its `unless` names lid_open"):
        Reasoner(tiny.rulebook)


def test_an_innocent_rule_behind_the_circle_is_not_named(tiny):
    tiny.rule("understand/a-innocent", when={"smoke": "white"}, unless={"windy": True}, then={"know": {"overshoot": "far"}})
    tiny.rule("understand/x", when={"windy": True}, unless={"smoke": "white"}, then={"know": {"smoke": "white"}})
    with pytest.raises(InferenceError, match="understand/x waits for itself"):
        Reasoner(tiny.rulebook)
