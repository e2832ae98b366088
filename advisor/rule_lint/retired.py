"""retired-ids: an id that was once used is never used again for another rule.

Avoid
    a new rule under an id that stands in rules/retired-ids.txt
Prefer
    a new id; and when a rule is deleted or renamed, its old id as a new line in rules/retired-ids.txt
Why
    Logbooks, transcripts and people's memory refer to rules by id. An id that means something else today makes them
    lie.
"""

from collections.abc import Iterator

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material

ID = "retired-ids"
FILE = "retired-ids.txt"


def check(material: Material) -> Iterator[Issue]:
    path = material.folder / FILE
    lines = path.read_text(encoding="utf-8", errors="replace").splitlines() if path.exists() else []
    retired = {entry: number for number, line in enumerate(lines, 1) if (entry := line.partition("#")[0].strip())}
    for rule in material.rules:
        if line := retired.get(rule.id):
            yield material.issue(ID, rule, ["id"], f"the id {rule.id} was retired ({FILE}, line {line})",
                                 "what refers to it means another rule", "choose an id that was never used")
