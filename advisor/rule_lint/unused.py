"""unused: whatever the lists define is used by some rule.

Avoid
    a finding no rule points to; a caution that no rule warns of and no act needs; a derived fact nothing concludes
Prefer
    a rule that uses it - or a shorter list
Why
    A caution that nothing brings up protects nobody, and a finding nobody reaches makes the chart on the wall promise
    what the program can't do.
"""

from collections.abc import Iterator

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material

ID = "unused"
DO = "use it in a rule or take it out"


def check(material: Material) -> Iterator[Issue]:
    catalogue, rules = material.catalogue, material.rules
    pointed = {finding for rule in rules for finding in rule.then.points_to or {}}
    for name in catalogue.findings.keys() - pointed:
        yield material.listed(ID, "findings.yaml", ["findings", name], f"no rule points to {name}",
                              "it is never found", DO)
    warned = {name for rule in rules for name in rule.then.warn or ()}
    needed = {name for act in catalogue.acts.values() for name in act.needs}
    for name in catalogue.cautions.keys() - warned - needed:
        yield material.listed(ID, "cautions.yaml", ["cautions", name], f"nothing brings up {name}",
                              "it is never said", "let an act need it, or a rule of safety/ warn of it")
    concluded = {fact for rule in rules for fact in rule.then.know or {}}
    for name in material.vocabulary.derived.keys() - concluded - material.by_arithmetic:
        yield material.listed(ID, "vocabulary.yaml", ["derived", name], f"nothing concludes {name}",
                              "it is never known", DO)
