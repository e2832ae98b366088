"""All checks over one rules folder. It never stops at the first fault: what can't be loaded is one issue each."""

from pathlib import Path

from advisor.rule_lint.checks import CHECKS
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.loads import gather
from advisor.rulebook.loader import rules_folder


def lint(folder: Path | None = None) -> list[Issue]:
    """Every issue of the rules in `folder` (the rules in use when None), by file and line."""
    material, issues = gather(folder or rules_folder())
    if material:
        issues += [issue for check in CHECKS.values() for issue in check(material)]
    return sorted(set(issues))
