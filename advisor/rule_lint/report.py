"""What the checks and the cases found, as text for the terminal."""

from collections import Counter
from pathlib import Path

from advisor.rule_lint.cases import CaseResult
from advisor.rule_lint.issue import Issue
from advisor.rulebook.loader import rule_paths


def check_text(issues: list[Issue], folder: Path) -> str:
    """Every issue of a rules folder, one a line, and a summary."""
    return "\n".join([*map(str, issues), _summary(issues, folder)])


def _summary(issues: list[Issue], folder: Path) -> str:
    if not issues:
        return f"{_number(len(rule_paths(folder)), 'rule')} checked: nothing to mend."
    by_check = ", ".join(f"{check} {times}" for check, times in Counter(issue.check for issue in issues).most_common())
    files = len({issue.file for issue in issues})
    return f"{_number(len(issues), 'issue')} in {_number(files, 'file')} ({by_check})."


def cases_text(results: list[CaseResult]) -> str:
    """The cases that did not come out as written, one a line, and a summary."""
    failed = [result for result in results if not result.passed]
    return "\n".join([*map(str, failed), _tally(results, failed)])


def _tally(results: list[CaseResult], failed: list[CaseResult]) -> str:
    ran = f"{_number(len(results), 'case')} of {_number(len({result.rule for result in results}), 'rule')}"
    return f"{ran} ran: " + (f"{len(failed)} failed." if failed else "all came out as written.")


def _number(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
