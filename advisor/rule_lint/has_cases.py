"""cases: every rule has cases beside it, and every cases file a rule.

Avoid
    recover/x.yaml without recover/x.cases.yaml; cases that only fire; a case told in facts that can't be told
Prefer
    fires:
      - {dome_f: 350, target_f: 250}
    silent:
      - {dome_f: 255, target_f: 250}
Why
    A case that fires shows that the rule works; one that stays silent shows that it does not meddle. A cases file
    whose name matches no rule never runs at all.
"""

from collections.abc import Iterator
from pathlib import Path

from advisor.rule_lint.cases import KINDS, cases_path, lines_of_cases, told_wrong
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rulebook.loader import CASES
from advisor.rulebook.schema import FOLDERS, Rule

ID = "cases"


def check(material: Material) -> Iterator[Issue]:
    for rule in material.rules:
        if rule.id not in material.broken_cases:
            yield from _of_rule(rule, material)
    for path in sorted(path for part in FOLDERS for path in (material.folder / part).glob(f"*{CASES}")):
        if not path.with_suffix("").with_suffix(".yaml").exists():
            yield Issue(str(path), 1, ID, "there is no rule of this name", "these cases never run",
                        "give it the name of its rule")


def _of_rule(rule: Rule, material: Material) -> Iterator[Issue]:
    cases = material.cases.get(rule.id)
    if cases is None:
        yield material.issue(ID, rule, ["id"], f"{rule.file.id} has no cases", "nothing shows that it works",
                             f"write {cases_path(rule).name} with `fires` and `silent`")
        return
    path = cases_path(rule)
    for kind in KINDS:
        if not cases.of(kind):
            yield Issue(str(path), 1, ID, f"there is no `{kind}` case", "each rule shows when it fires and when not",
                        f"add a situation under `{kind}`")
    yield from _untellable(path, material)


def _untellable(path: Path, material: Material) -> Iterator[Issue]:
    cases = material.cases[f"{path.parent.name}/{path.name.removesuffix(CASES)}"]
    lines = lines_of_cases(path)
    for kind in KINDS:
        for told, line in zip(cases.of(kind), lines[kind]):
            if wrong := told_wrong(told, material.rulebook):
                yield Issue(str(path), line, ID, wrong.seen, wrong.matters, wrong.remedy)
