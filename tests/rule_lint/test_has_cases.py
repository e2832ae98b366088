"""Check `cases`: each rule with cases, each cases file with a rule, and cases that can be told."""


def test_a_rule_without_cases(tiny):
    (tiny.folder / "teach/wind--shelter.cases.yaml").unlink()
    assert tiny.only("cases").startswith("teach/wind--shelter.yaml:1: wind--shelter has no cases")


def test_cases_without_a_rule(tiny):
    tiny.write("teach/wnd.cases.yaml", "fires: [{windy: true}]\nsilent: [{windy: false}]\n")
    assert tiny.only("cases").startswith("teach/wnd.cases.yaml:1: there is no rule of this name")


def test_cases_of_one_kind_only(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "fires: [{about: wind}]\n")
    assert "there is no `silent` case" in tiny.only("cases")
    tiny.write("teach/wind--shelter.cases.yaml", "silent: [{windy: true}]\n")
    assert "there is no `fires` case" in tiny.only("cases")


def test_empty_cases(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "")
    assert len(tiny.found("cases")) == 2


def test_a_fact_nobody_knows_is_reported_at_its_line(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "fires:\n  - {about: wind}\nsilent:\n  - {windi: true}\n")
    assert tiny.only("cases") == "teach/wind--shelter.cases.yaml:4: there is no fact 'windi'; did you mean windy?"


def test_a_derived_fact_can_not_be_told(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "fires:\n  - {about: wind}\nsilent:\n  - {overshoot: far}\n")
    assert "overshoot is worked out, not told" in tiny.only("cases")


def test_a_value_that_can_not_stand(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "fires:\n  - {about: wind}\nsilent:\n  - {dome_f: 5000}\n")
    assert "it can only lie between -60 and 1300" in tiny.only("cases")
