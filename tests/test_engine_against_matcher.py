"""The engine against a plain matcher: the same facts, findings, firings and blocks on situations at random."""

from collections.abc import Mapping
from random import Random

import pytest
from plain_matcher import Outcome, PlainMatcher, certainty
from random_situations import RandomSituations

from advisor.derivation import derive
from advisor.facts import Fact, Value
from advisor.inference.certainty import combine
from advisor.inference.reasoner import Reasoner
from advisor.profile import CookerProfile
from advisor.rule_lint.cases import cases_path, read_cases
from advisor.rulebook.loader import Rulebook
from advisor.situation import Situation

SITUATIONS = 300


def known(told: Mapping[str, Value], origin: str, rulebook: Rulebook) -> dict[str, Fact]:
    checked = {name: rulebook.vocabulary.check(name, value) for name, value in told.items()}
    situation = Situation().tell(checked, origin, rulebook.vocabulary, 0.0)
    return derive(situation, rulebook.vocabulary, rulebook.catalogue.vent_chart, CookerProfile(), 0.0)


def engine_outcome(reasoner: Reasoner, facts: Mapping[str, Fact]) -> Outcome:
    inference = reasoner.infer(facts)
    return Outcome({name: fact.value for name, fact in inference.facts.items()},
                   {held.id: held.certainty for held in inference.findings},
                   {firing.rule.id for firing in inference.firings}, {held.rule.id for held in inference.blocked})


def differences(one: Outcome, other: Outcome) -> list[str]:
    """What one has that the other has not, in words; certainties may differ in the last digit."""
    found = [f"{part}: {sorted(getattr(one, part) ^ getattr(other, part))}" for part in ("fired", "blocked")
             if getattr(one, part) != getattr(other, part)]
    if one.facts != other.facts:
        found.append(f"facts: {sorted(map(str, one.facts.items() ^ other.facts.items()))}")
    sure = {name: (one.findings.get(name, -1), other.findings.get(name, -1)) for name in one.findings | other.findings}
    return found + [f"{name}: {pair}" for name, pair in sure.items() if abs(pair[0] - pair[1]) > 0.0002]


@pytest.fixture(scope="module")
def reasoner(rulebook) -> Reasoner:
    return Reasoner(rulebook)


@pytest.fixture(scope="module")
def plain(rulebook) -> PlainMatcher:
    return PlainMatcher(rulebook)


def test_the_same_on_situations_at_random(rulebook, reasoner, plain):
    for told, origin in RandomSituations(rulebook).many(SITUATIONS, seed=7):
        facts = known(told, origin, rulebook)
        assert differences(engine_outcome(reasoner, facts), plain.chain(facts)) == [], told


def test_the_same_on_a_case_of_every_rule(rulebook, reasoner, plain):
    for rule in rulebook.rules:
        told = read_cases(cases_path(rule)).fires[0]
        facts = known(told, "said", rulebook)
        assert differences(engine_outcome(reasoner, facts), plain.chain(facts)) == [], told


def test_situations_at_random_bring_most_rules_to_speak(rulebook, reasoner):
    """Otherwise the comparison would say little."""
    fired: set[str] = set()
    for told, origin in RandomSituations(rulebook).many(SITUATIONS, seed=7):
        fired |= engine_outcome(reasoner, known(told, origin, rulebook)).fired
    assert len(fired) >= 0.4 * len(rulebook.rules)


def test_certainty_agrees_with_its_closed_form():
    random = Random(3)
    for _ in range(2000):
        weights = [random.uniform(-1, 1) for _ in range(random.randint(0, 6))]
        assert combine(weights) == pytest.approx(certainty(weights), abs=1e-4)


def test_the_comparison_sees_a_difference(rulebook, reasoner, plain):
    facts = known({"dome_f": 400, "target_f": 250}, "said", rulebook)
    spoilt = plain.chain(facts)
    spoilt.fired.pop()
    assert differences(engine_outcome(reasoner, facts), spoilt)
