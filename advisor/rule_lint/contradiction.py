"""contradiction: no two procedures of equal standing ask for clashing things in one situation.

Avoid
    recover/a: {concern: fire, standing: correct}, top vent to 0.1    and
    recover/b: {concern: fire, standing: correct}, top vent to 0.5    both firing on the same facts
Prefer
    conditions (or `unless`) that tell the two situations apart, or a standing that says which comes first
Why
    The plan follows one procedure for each concern: the more urgent standing, then the surer finding. Where both are
    equal the choice between clashing steps would hang on a detail nobody chose. Two rules that rest on different
    findings are told apart by how sure these are and are not reported. The situation named was found by a full run.
"""

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rule_lint.together import firing_both, told_words
from advisor.rulebook.schema import Amount, Rule, Step

ID = "contradiction"


def check(material: Material) -> Iterator[Issue]:
    for one, other in combinations(material.of("recover"), 2):
        clash = _clash(one, other, material) if _equal(one, other, material) else None
        if clash and (told := firing_both(one, other, material)) is not None:
            yield material.issue(ID, other, ["when"], f"it fires together with {one.id} on {{{told_words(told)}}}",
                                 f"{clash}, and both are {other.then.standing} for the {other.then.concern}",
                                 "tell the two apart in `when` or `unless`, or give one another standing")


def _equal(one: Rule, other: Rule, material: Material) -> bool:
    """Whether nothing the plan goes by puts one before the other."""
    return ((one.then.concern, one.then.standing) == (other.then.concern, other.then.standing)
            and _findings(one, material) == _findings(other, material))


def _findings(rule: Rule, material: Material) -> frozenset[str]:
    return frozenset(condition.fact for condition in rule.when if condition.fact not in material.vocabulary)


def _clash(one: Rule, other: Rule, material: Material) -> str | None:
    """What can't be done both: the same vent set differently, or acts against each other."""
    here, there = _vents(one), _vents(other)
    for vent in sorted(here.keys() & there.keys()):
        if here[vent] != there[vent]:
            return f"{vent} goes to {there[vent]} here and to {here[vent]} there"
    acts = material.catalogue.acts
    for mine in dict.fromkeys(step.act for step in other.then.steps or ()):
        for theirs in dict.fromkeys(step.act for step in one.then.steps or ()):
            if theirs in acts[mine].against or mine in acts[theirs].against:
                return f"{mine} here can't stand beside {theirs} there"
    return None


def _vents(rule: Rule) -> dict[str, str]:
    """Vent -> where its first step puts it."""
    found: dict[str, str] = {}
    for step in rule.then.steps or ():
        if "vent" in step.parameters:
            found.setdefault(f"the {step.parameters['vent']} vent", _opening(step))
    return found


def _opening(step: Step) -> str:
    opening: Any = step.parameters.get("opening")
    if isinstance(opening, dict):
        opening = Amount.model_validate(opening)
        return opening.from_ + (f"{opening.plus:+g}" if opening.plus else "")
    return f"{opening:g}" if isinstance(opening, int | float) else str(opening)
