"""amounts: a figure taken from a fact is there when the step is said.

Avoid
    wait_min: {from: rest_of_burp_min}                         while nothing says when the lid was opened
Prefer
    opening: {from: hold_top, otherwise: 0.1}                  a figure for when the fact is unknown
    when: {over_f: {at_most: 0}}                               a bound on a fact that the rule knows
Why
    Without its figure a step loses its opening or its wait - and a step that waits for a reading comes at once.
    Known for sure is what `when` names and what follows from that.
"""

from collections.abc import Iterator
from typing import Any

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.known import known_when_fired
from advisor.rule_lint.material import Key, Material
from advisor.rulebook.schema import Amount, Step

ID = "amounts"


def check(material: Material) -> Iterator[Issue]:
    for rule in material.of("recover"):
        for number, step in enumerate(rule.then.steps or ()):
            for keys, amount in _amounts(step):
                if _said_as_distance(keys, amount):
                    continue  # the plan turns a dome bound by an unknown target into a distance from it
                if amount.otherwise is None and amount.from_ not in known_when_fired(rule, material):
                    yield material.issue(ID, rule, ["then", "steps", number, *keys],
                                         f"{keys[-1]} is taken from {amount.from_}, which may be unknown",
                                         "the step would be said without it", _do(keys, amount))


def _said_as_distance(keys: list[Key], amount: Amount) -> bool:
    return keys[:2] == ["when", "dome_f"] and amount.from_ == "target_f"


def _do(keys: list[Key], amount: Amount) -> str:
    if keys[0] == "when":
        return f"wait for a fact the rule knows, such as over_f: {{at_most: 0}}, or ask for {amount.from_} in `when`"
    return f"add `otherwise: <number>`, or ask for {amount.from_} in the rule's `when`"


def _amounts(step: Step) -> Iterator[tuple[list[Key], Amount]]:
    written: list[tuple[list[Key], Any]] = [([name], value) for name, value in step.parameters.items()]
    written += [(["wait_min"], step.wait_min)]
    written += [(["when", fact, test], bound) for fact, bounds in (step.when or {}).items()
                for test, bound in bounds.items()]
    for keys, value in written:
        if isinstance(value, dict):
            yield keys, Amount.model_validate(value)
        elif isinstance(value, Amount):
            yield keys, value
