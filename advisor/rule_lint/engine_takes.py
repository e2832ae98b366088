"""engine: the engine can take the rules as they are.

Avoid
    a circle through `unless` (a rule that waits for its own conclusion), more than 7 conditions in one `when`, more
    than 48 ways in which one `when` can hold, more than 60 different bounds on one fact
Prefer
    a fact of understand/ that names the intermediate step, and rules that use it
Why
    Beyond these limits the matcher has been seen to crash, hang or lie, so a rule base that passes them is refused
    as a whole - nobody would get any advice.
"""

from collections.abc import Iterator

from advisor.errors import InferenceError
from advisor.inference.reasoner import Reasoner
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material

ID = "engine"


def check(material: Material) -> Iterator[Issue]:
    try:
        Reasoner(material.rulebook)
    except InferenceError as error:
        rule = next((rule for rule in material.rules if error.seen.startswith((f"{rule.id} ", f"{rule.id}#"))), None)
        if rule:
            yield material.issue(ID, rule, ["when"], error.seen, error.matters, error.remedy)
        else:
            yield Issue(str(material.folder), 1, ID, error.seen, error.matters, error.remedy)
