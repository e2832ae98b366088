"""duplicates: no rule says again what another says.

Avoid
    two rules of one folder with the same `when`, the same `unless` and the same conclusion
Prefer
    one rule; two findings from the same conditions in one `points_to`
Why
    Evidence written down twice counts twice, and a copy that is forgotten when the other is mended contradicts it.
"""

from collections.abc import Hashable, Iterator

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rulebook.schema import Rule

ID = "duplicates"


def check(material: Material) -> Iterator[Issue]:
    first: dict[Hashable, Rule] = {}
    for rule in material.rules:
        twin = first.setdefault(_logic(rule), rule)
        if twin is not rule:
            yield material.issue(ID, rule, ["when"], f"it says the same as {twin.id}", "both count, and one will be "
                                 "forgotten when the other is mended", "keep one")


def _logic(rule: Rule) -> Hashable:
    """Folder, conditions in any order, and what is concluded; the words for the cook left out."""
    then = rule.then
    steps = tuple((step.act, repr(sorted(step.parameters.items())), repr(step.wait_min), repr(step.when))
                  for step in then.steps or ())
    concluded = (then.know, then.points_to, then.warn, then.concern, then.standing, then.tell)
    return (rule.folder, frozenset(rule.when), frozenset(rule.unless), steps, repr(concluded))
