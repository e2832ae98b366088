"""can-fire: every rule can fire.

Avoid
    when: {dome_f: {at_least: 300, below: 250}}         no number is both
    when: {overshoot: far, over_f: {below: 10}}         no rule concludes `far` from so little
    when: {chasing: true}                               and no rule or arithmetic that ever concludes `chasing`
    when: {fuel-low: certain}                           and evidence that never adds up to `certain`
    when: {choked: true}  unless: {choked: true}        always held back
Prefer
    conditions that some situation meets; a rule of understand/ or diagnose/ for everything that is concluded
Why
    A rule that can't fire looks like help and gives none, and its cases file can't be written.
"""

from collections.abc import Iterator

from advisor.conditions import Condition
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rule_lint.solving import (
    Way,
    by_fact,
    grade_of,
    makers,
    pointers,
    possible,
    surest,
    values_meeting,
    ways,
)
from advisor.rulebook.schema import Rule

ID = "can-fire"
MATTERS = "the rule can never fire"


def check(material: Material) -> Iterator[Issue]:
    for rule in material.rules:
        if found := next(_reasons(rule, material), None):
            keys, seen, do = found
            yield material.issue(ID, rule, keys, seen, MATTERS, do)


Reason = tuple[list[str], str, str]


def _reasons(rule: Rule, material: Material) -> Iterator[Reason]:
    """Why the rule can't fire: place, what was seen, what to do; the plainest reason first."""
    for condition in rule.when:
        if reason := _alone(condition, material):
            yield ["when", condition.fact], *reason
    found = ways(rule.when, material)
    if not found:
        yield ["when"], "its conditions exclude one another", "loosen one of them"
    elif blocker := _always_blocked(rule, found, material):
        yield ["unless", blocker.fact], f"whenever `when` holds, {blocker} holds too", "drop or narrow it"


def _alone(condition: Condition, material: Material) -> tuple[str, str] | None:
    """What keeps one condition from ever holding, whatever the others are."""
    name = condition.fact
    if name not in material.vocabulary:
        return _finding_out_of_reach(condition, material)
    if not possible((condition,), material.vocabulary):
        return f"no value can be so that {condition}", "correct the bounds"
    if name in material.vocabulary.told or name in material.by_arithmetic or makers(condition, material):
        return None
    values = {str(rule.then.know[name]).lower() for rule in material.of("understand") if name in (rule.then.know or {})}
    concluded = f"rules conclude only {', '.join(sorted(values))} for it" if values else "no rule concludes it"
    return f"nothing ever makes it so that {condition}", f"{concluded}; write a rule in understand/ or use another fact"


def _finding_out_of_reach(condition: Condition, material: Material) -> tuple[str, str] | None:
    speaking = pointers(condition.fact, material)
    if not speaking:
        return f"no rule points to {condition.fact}", "write a rule in diagnose/ that does"
    most = surest(condition.fact, speaking)
    if most < grade_of(condition):
        return (f"all evidence for {condition.fact} taken together reaches {most:.2f}, {condition.one_of[0]} needs "
                f"{grade_of(condition):.2f}"), "ask for less or add evidence in diagnose/"
    return None


def _always_blocked(rule: Rule, found: list[Way], material: Material) -> Condition | None:
    """A condition of `unless` that holds in every way in which `when` can hold."""
    return next((blocker for blocker in rule.unless if blocker.fact in material.vocabulary
                 and all(_implies(way, blocker, material) for way in found)), None)


def _implies(way: Way, blocker: Condition, material: Material) -> bool:
    asked = by_fact(way).get(blocker.fact)
    if not asked:
        return False
    return all(blocker.holds(value) for value in values_meeting(asked, material.vocabulary, beside=[blocker]))
