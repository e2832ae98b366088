"""`drafthand rules check|test|map`: what the lint, the cases and the map say about a rule base."""

import argparse
from pathlib import Path

from advisor.errors import CommandRefused, DrafthandError
from advisor.rulebook.loader import read_rulebook, rules_folder
from advisor.terminal import door
from advisor.terminal.layout import columns

DONE, FAILED = 0, 1
MAP_WIDTH = 100  # where no terminal says


def run(call: argparse.Namespace) -> int:
    if call.html and call.task != "map":
        raise CommandRefused("--html goes with map only", "", "call drafthand rules map --html FILE")
    folder = Path(call.rules) if call.rules else rules_folder()
    return {"check": _check, "test": _test, "map": _map}[call.task](folder, call)


def _check(folder: Path, call: argparse.Namespace) -> int:
    from advisor.rule_lint.report import check_text
    from advisor.rule_lint.runner import lint

    issues = lint(folder)
    door.say(check_text(issues, folder))
    return FAILED if issues else DONE


def _test(folder: Path, call: argparse.Namespace) -> int:
    from advisor.rule_lint.cases import run_cases
    from advisor.rule_lint.report import cases_text

    results = run_cases(read_rulebook(folder))
    door.say(cases_text(results))
    return DONE if all(result.passed for result in results) else FAILED


def _map(folder: Path, call: argparse.Namespace) -> int:
    from advisor.rule_lint.chart_page import map_html
    from advisor.rule_lint.chart_text import map_lines

    rulebook = read_rulebook(folder)
    if call.html:
        _write(Path(call.html), map_html(rulebook))
        door.say(f"The map is written to {call.html}.")
    else:
        door.say("\n".join(map_lines(rulebook, columns() or MAP_WIDTH)))
    return DONE


def _write(path: Path, page: str) -> None:
    try:
        path.write_text(page, encoding="utf-8")
    except OSError as error:
        raise DrafthandError(f"{path} cannot be written ({error.strerror})", "", "name another file") from None
