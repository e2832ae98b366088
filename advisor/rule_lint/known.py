"""What is known for sure whenever a rule fires: what its conditions name, and what follows from that alone."""

from collections.abc import Container
from dataclasses import dataclass

from advisor.rule_lint.material import Material
from advisor.rule_lint.solving import proposals, ways
from advisor.rulebook.schema import Rule


@dataclass(frozen=True)
class Everything:
    """Holds whatever it is asked for: of a rule that can't fire or be run nothing can be proven to be unknown."""

    def __contains__(self, name: object) -> bool:
        return True


def known_when_fired(rule: Rule, material: Material) -> Container[str]:
    """Facts known in every way in which `when` can hold."""
    if rule.id not in material.known:
        material.known[rule.id] = _known(rule, material)
    return material.known[rule.id]


def _known(rule: Rule, material: Material) -> Container[str]:
    told = [told for way in ways(rule.when, material) for told in proposals(way, material)]
    runs = [inference for facts in told if (inference := material.infer(facts))]
    if not runs:
        return Everything()
    return {condition.fact for condition in rule.when} | set.intersection(*(set(run.facts) for run in runs))
