"""Check `loads`: each broken file is one issue with file and line, and the rest is still checked."""

import pytest

from advisor.rule_lint import lint


def test_a_misspelt_key_names_the_line_and_the_nearest_key(tiny):
    tiny.replace("recover/too-much-air--shut-it.yaml", "unless:", "unles:")
    assert tiny.only("loads") == "recover/too-much-air--shut-it.yaml:7: there is no key 'unles'; did you mean unless?"


def test_an_unknown_fact_names_the_line_and_the_nearest_fact(tiny):
    tiny.replace("diagnose/too-much-air--wind.yaml", "windy: true", "windi: true")
    assert tiny.only("loads") == "diagnose/too-much-air--wind.yaml:5: there is no fact 'windi'; did you mean windy?"


def test_several_broken_files_are_all_reported_and_the_rest_is_checked(tiny):
    tiny.write("recover/broken.yaml", "id: [")
    tiny.replace("safety/wind--sparks.yaml", "trusted", "trustd")
    tiny.rule("teach/other", source="todo")
    assert len(tiny.found("loads")) == 2
    assert "says nothing" in tiny.only("source")


def test_a_broken_vocabulary_does_not_hide_broken_rule_files(tiny):
    tiny.replace("vocabulary.yaml", "type: flag, says: the lid is open", "typ: flag, says: the lid is open")
    tiny.replace("findings.yaml", "family", "famly")
    tiny.replace("safety/wind--sparks.yaml", "title:", "titel:")
    found = tiny.found()
    assert [line.split(":")[0] for line in found] == ["findings.yaml", "safety/wind--sparks.yaml", "vocabulary.yaml"]
    assert "did you mean title?" in found[1]


def test_a_list_that_names_nothing_known_is_reported_at_its_line(tiny):
    tiny.replace("acts.yaml", "against: [change_nothing]", "against: [change_nothin]")
    tiny.replace("cautions.yaml", "bears_on: [burp_lid]", "bears_on: [burp_lit]")
    tiny.replace("phrases.yaml", "openers: [dome_f]", "openers: [target_f]")
    found = tiny.found("loads")
    assert "acts.yaml:9: there is no act 'change_nothin'; did you mean change_nothing?" in found
    assert "cautions.yaml:5: there is no act 'burp_lit'; did you mean burp_lid?" in found
    assert any(line.startswith("phrases.yaml:1: 'target_f' has no question") for line in found)


def test_a_missing_phrase_and_a_wrong_leaving_are_reported(tiny):
    tiny.replace("phrases.yaml", "  danger: danger\n", "")
    tiny.replace("acts.yaml", "leaves: {lid_open: false}", "leaves: {lid_open: shut}")
    found = tiny.found("loads")
    assert any("the phrase 'danger' is missing" in line for line in found)
    assert any(line.startswith("acts.yaml:15: lid_open was given as 'shut'") for line in found)


@pytest.mark.parametrize(("name", "says"), [("recovr/x.yaml", "recovr/ is no folder for rules"),
                                            ("recover/x.yml", "x.yml is no rule file")])
def test_a_file_where_nothing_looks_is_reported(tiny, name, says):
    tiny.write(name, "id: x")
    assert says in tiny.only("loads")


def test_broken_cases_are_one_issue_and_not_missing_cases_too(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "fires: [{about: wind}]\nsilnt: []\n")
    assert tiny.found() == ["teach/wind--shelter.cases.yaml:2: there is no key 'silnt'; did you mean silent?"]


def test_a_folder_that_is_not_there_is_one_issue(tmp_path):
    issues = lint(tmp_path / "nowhere")
    assert len(issues) == 1 and "no such folder" in issues[0].says
