"""`drafthand rules check|test|map`: the words and the exit status for a good and for a bad rule base."""

import shutil

import pytest

from advisor.rulebook.loader import rules_folder


@pytest.fixture
def broken(tmp_path):
    """A copy of the rule base, to be broken."""
    return shutil.copytree(rules_folder(), tmp_path / "rules")


def test_cases_of_the_rule_base_come_out_as_written(drafthand):
    status, output, errors = drafthand("rules", "test")
    assert (status, errors) == (0, ""), output
    assert "all came out as written" in output


def test_a_case_that_fails_is_named_with_its_line(drafthand, broken):
    cases = broken / "recover" / "far-over--choke-and-burp.cases.yaml"
    cases.write_text("fires:\n  - {over_f: 12}\nsilent:\n  - {over_f: 5}\n")
    status, output, _ = drafthand("rules", "test", "--rules", str(broken))
    assert status == 1
    assert f"{cases}:2: " in output


def test_check_names_file_and_line_and_fails(drafthand, broken):
    rule = next((broken / "recover").glob("*[!s].yaml"))
    rule.write_text(rule.read_text().replace("when:", "whem:"))
    status, output, errors = drafthand("rules", "check", "--rules", str(broken))
    assert status == 1 and errors == ""
    assert f"{rule}:" in output and "did you mean when" in output


def test_the_map_is_drawn_and_written(drafthand, tmp_path):
    status, output, _ = drafthand("rules", "map", COLUMNS="60")
    assert status == 0 and max(map(len, output.splitlines())) <= 60
    page = tmp_path / "map.html"
    assert drafthand("rules", "map", "--html", str(page))[0] == 0
    assert page.read_text(encoding="utf-8").lstrip().lower().startswith("<!doctype html")


def test_a_page_that_cannot_be_written_is_one_sentence(drafthand, tmp_path):
    status, _, errors = drafthand("rules", "map", "--html", str(tmp_path / "none" / "map.html"))
    assert status == 1 and "cannot be written" in errors and errors.count("\n") == 1


def test_html_goes_with_map_only(drafthand):
    assert drafthand("rules", "check", "--html", "x")[0] == 2


def test_a_rule_base_that_is_not_there(drafthand, tmp_path):
    for task in ("check", "test", "map"):
        status, output, errors = drafthand("rules", task, "--rules", str(tmp_path / "none"))
        assert status == 1 and "no such folder" in output + errors
