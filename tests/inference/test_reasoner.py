"""From facts to conclusions: each rule once, unknown blocks nothing, findings weighed before advice, firings recorded."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from advisor.facts import Fact
from advisor.inference.reasoner import Reasoner


def facts(origin: str = "said", **values) -> dict[str, Fact]:
    return {name: Fact(name, float(value) if type(value) is int else value, origin) for name, value in values.items()}


@pytest.fixture
def infer(tiny):
    reasoner = Reasoner(tiny.rulebook)
    return lambda origin="said", **values: reasoner.infer(facts(origin, **values))


def ids(inference) -> list[str]:
    return [firing.rule.id for firing in inference.firings]


def test_readings_become_derived_facts_evidence_findings_and_advice(infer):
    inference = infer(over_f=100, windy=True)
    assert ids(inference) == ["understand/far-over--seventy-five", "diagnose/too-much-air--wind",
                              "recover/too-much-air--shut-it"]
    assert inference.value("overshoot") == "far" and inference.value("too-much-air") == 0.6
    assert [firing.n for firing in inference.firings] == [1, 2, 3]


def test_nothing_follows_from_nothing(infer):
    inference = infer()
    assert (inference.firings, inference.findings, inference.blocked) == ((), (), ())


def test_each_firing_names_the_facts_it_used_and_what_it_gave(infer):
    firing = infer(over_f=100, windy=True).firings[1]
    assert [fact.name for fact in firing.used] == ["windy", "overshoot"]
    assert firing.gave == "too-much-air +0.6"
    assert str(firing).startswith("2. diagnose/too-much-air--wind: windy = true (said), overshoot = far (derived)")


def test_a_rule_held_back_is_recorded_with_the_fact_that_held_it(infer):
    inference = infer(over_f=100, windy=True, lid_open=True)
    (blocked,) = inference.blocked
    assert blocked.rule.id == "recover/too-much-air--shut-it" and blocked.by.name == "lid_open"
    assert blocked.rule.id not in ids(inference)


def test_unknown_and_known_to_be_false_hold_nothing_back(infer):
    assert "recover/too-much-air--shut-it" in ids(infer(over_f=100, windy=True, lid_open=False))
    assert "recover/too-much-air--shut-it" in ids(infer(over_f=100, windy=True))


def test_unless_waits_for_what_other_rules_conclude(tiny):
    tiny.rule("understand/a-first", when={"windy": True}, unless={"overshoot": "far"}, then={"know": {"smoke": "white"}})
    reasoner = Reasoner(tiny.rulebook)
    assert reasoner.infer(facts(windy=True, over_f=100)).value("smoke") is None
    assert reasoner.infer(facts(windy=True, over_f=20)).value("smoke") == "white"


def test_a_rule_with_alternatives_fires_once(tiny):
    tiny.rule("teach/either", when={"smoke": ["white", "black"], "overshoot": ["small", "far"]})
    inference = Reasoner(tiny.rulebook).infer(facts(smoke="white", over_f=100))
    assert ids(inference).count("teach/either") == 1


def test_what_was_said_stands_against_what_a_rule_concludes(infer):
    assert infer(over_f=100, overshoot="small").value("overshoot") == "small"


def test_a_grade_is_met_by_that_certainty_or_more(tiny):
    for grade in ("possible", "likely", "certain"):
        tiny.rule(f"teach/{grade}", when={"too-much-air": grade})
    tiny.rule("diagnose/more", when={"smoke": "black"}, then={"points_to": {"too-much-air": 0.7}})
    reasoner = Reasoner(tiny.rulebook)
    assert [rule for rule in ids(reasoner.infer(facts(over_f=50, windy=True))) if "teach" in rule] == [
        "teach/likely", "teach/possible"]
    assert "teach/certain" in ids(reasoner.infer(facts(over_f=50, windy=True, smoke="black")))  # 0.6 + 0.7 - 0.42


def test_evidence_against_takes_a_finding_away_but_it_stays_in_the_weighing(tiny):
    tiny.rule("diagnose/against", when={"smoke": "none"}, then={"points_to": {"too-much-air": -0.6}})
    inference = Reasoner(tiny.rulebook).infer(facts(over_f=50, windy=True, smoke="none"))
    assert inference.findings == () and inference.value("too-much-air") is None
    assert inference.weighed[0].certainty == 0.0 and len(inference.weighed[0].evidence) == 2


def test_what_is_only_assumed_weighs_less(infer):
    assert infer("assumed", over_f=50, windy=True).value("too-much-air") == pytest.approx(0.36)


def test_findings_come_surest_first(tiny):
    tiny.replace("findings.yaml", "findings:\n", "findings:\n  ash-chokes: {family: x, says: Ash.}\n")
    tiny.rule("diagnose/ash", when={"windy": True}, then={"points_to": {"ash-chokes": 0.9}})
    inference = Reasoner(tiny.rulebook).infer(facts(over_f=50, windy=True))
    assert [held.id for held in inference.findings] == ["ash-chokes", "too-much-air"]


def test_the_facts_given_are_not_changed_and_the_same_facts_give_the_same(infer, tiny):
    given = facts(over_f=100, windy=True)
    reasoner = Reasoner(tiny.rulebook)
    assert str(reasoner.infer(given)) == str(reasoner.infer(given))
    assert set(given) == {"over_f", "windy"}


def test_the_order_in_which_facts_are_told_does_not_matter(tiny):
    reasoner = Reasoner(tiny.rulebook)
    given = facts(over_f=100, windy=True, lid_open=False, smoke="white")
    turned = dict(reversed(given.items()))
    assert sorted(ids(reasoner.infer(given))) == sorted(ids(reasoner.infer(turned)))


def test_numbers_are_compared_alike_inside_the_engine_and_outside(tiny):
    tiny.rule("teach/inside", when={"top_vent": {"at_least": 0.3333}})
    tiny.rule("teach/outside", when={"top_vent": {"known": True}}, unless={"top_vent": {"at_least": 0.3333}})
    for value in (0.33325, 0.33329, 0.3333, 0.33331, 0.33334999, 1 / 3):
        fired = ids(Reasoner(tiny.rulebook).infer(facts(top_vent=value)))
        assert len([rule for rule in fired if rule in ("teach/inside", "teach/outside")]) == 1


def test_several_threads_share_one_reasoner(rulebook):
    reasoner = Reasoner(rulebook)

    def ask(number: int) -> str:
        return str(reasoner.infer(facts(over_f=float(number), windy=number % 2 == 0)))

    alone = [ask(number) for number in range(40)]
    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(ask, range(40))) == alone
