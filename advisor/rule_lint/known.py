"""What is known for sure whenever a rule fires: what its conditions name, and what follows from that alone."""

from advisor.rule_lint.material import Material
from advisor.rule_lint.solving import proposals, ways
from advisor.rulebook.schema import Rule


def known_when_fired(rule: Rule, material: Material) -> frozenset[str] | None:
    """Facts known in every way in which `when` can hold; None when that can't be told (it can't fire or be run)."""
    told = [told for way in ways(rule.when, material) for told in proposals(way, material)]
    runs = [inference for facts in told if (inference := material.infer(facts))]
    if not runs:
        return None
    named = {condition.fact for condition in rule.when}
    return frozenset(named | set.intersection(*(set(run.facts) for run in runs)))
