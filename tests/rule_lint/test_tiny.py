"""The small folder has no fault: every check stays silent on it."""

from advisor.rule_lint import run_cases
from advisor.rule_lint.checks import CHECKS, PAGES


def test_no_check_finds_anything_in_a_folder_without_fault(tiny):
    assert tiny.found() == []


def test_its_cases_come_out_as_written(tiny):
    results = run_cases(tiny.rulebook)
    assert len(results) == 13 and all(result.passed for result in results)


def test_every_check_has_a_page_that_shows_what_to_avoid_what_to_prefer_and_why():
    for check, page in PAGES.items():
        assert page.startswith(f"{check}: ")
        assert [line for line in page.splitlines() if line in ("Avoid", "Prefer", "Why")] == ["Avoid", "Prefer", "Why"]


def test_the_table_holds_every_check_once():
    assert len(CHECKS) == len(PAGES) == 17
