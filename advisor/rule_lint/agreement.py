"""agreement: no two rules of understand/ conclude different values of one fact in one situation.

Avoid
    understand/walls-hot:  when {lit_ago_min: {at_least: 45}}  then know {walls: hot}
    understand/walls-cold: when {lit_ago_min: {below: 60}}     then know {walls: cold}
Prefer
    bounds that meet without overlapping, or an `unless` in the weaker of the two
Why
    What is concluded first stands, and the other rule fires for nothing. Which one is first hangs on the order of
    the files. The situation named was found by a full run.
"""

from collections.abc import Iterator
from itertools import combinations

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rule_lint.together import firing_both, told_words
from advisor.rulebook.schema import Rule

ID = "agreement"


def check(material: Material) -> Iterator[Issue]:
    for one, other in combinations(material.of("understand"), 2):
        fact = _disputed(one, other)
        if fact and (told := firing_both(one, other, material)) is not None:
            yield material.issue(ID, other, ["then", "know", fact],
                                 f"{fact} is {_word(other, fact)} here and {_word(one, fact)} in {one.id}",
                                 f"both fire on {{{told_words(told)}}}", "let their conditions exclude each other")


def _disputed(one: Rule, other: Rule) -> str | None:
    here, there = one.then.know or {}, other.then.know or {}
    return next((fact for fact in here if fact in there and here[fact] != there[fact]), None)


def _word(rule: Rule, fact: str) -> str:
    return str(rule.then.know[fact]).lower()
