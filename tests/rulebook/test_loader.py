"""Reading a rules folder: what is wrong is one sentence with file, line and a way out."""

import os

import pytest

from advisor.errors import RuleFileError
from advisor.rulebook.loader import read_rulebook, rule_paths, rules_folder

RULE = "recover/too-much-air--shut-it.yaml"


def refused(tiny) -> str:
    with pytest.raises(RuleFileError) as caught:
        read_rulebook(tiny.folder)
    return str(caught.value).removeprefix(f"{tiny.folder}/")


def test_the_small_folder_loads_in_the_order_of_folders_and_names(tiny):
    assert [rule.id for rule in tiny.rulebook.rules] == [
        "understand/far-over--seventy-five", "understand/touch-over--under-seventy-five",
        "diagnose/too-much-air--wind", "recover/too-much-air--shut-it", "safety/wind--sparks", "teach/wind--shelter"]


@pytest.mark.parametrize(("old", "new", "says"), [
    ("unless:", "unles:", "7: there is no key 'unles'; did you mean unless?"),
    ("concern: fire", "concern: fyre", ("10: then.concern is 'fyre', allowed are 'people', 'fire', 'fuel', 'smoke', 'food', "
     "'gauge' or 'gear'; did you mean fire?")),
    ("standing: correct", "standng: correct", "11: there is no key 'standng'; did you mean standing?"),
    ("status: trusted", "status: trustd", "3: status is 'trustd', allowed are 'trusted' or 'draft'; did you mean trusted?"),
    ("overshoot: far", "overshoot: farr", ("6: overshoot was given as 'farr', that is not one of its values; did you mean "
     "far?")),
    ("overshoot: far", "over_shoot: far", "6: there is no fact 'over_shoot'; did you mean overshoot or over_f?"),
    ("too-much-air: likely", "too-much-aire: likely", "5: there is no finding 'too-much-aire'; did you mean too-much-air?"),
    ("too-much-air: likely", "too-much-air: true", "5: 'too-much-air' is a finding; say how sure: possible, likely, certain"),
    ("  overshoot: far", "  over_f: {at_lest: 75}", ("6: when.over_f: no test at_lest; allowed are at_least, above, at_most, "
     "below, not, known")),
    ("  overshoot: far", "  over_f: {at_least: }", "6: when.over_f: at_least needs a number, not nothing"),
    ("  overshoot: far", "  over_f:", "6: when.over_f: nothing is no value; write a number, a word, true or false"),
    ("  overshoot: far", "  over_f: {at_least: 5000}", "6: over_f was given as 5000 °F, it can only lie between"),
    ("  overshoot: far", "  over_f: {at_least: .nan}", "6: over_f was given as nan"),
    ("  overshoot: far", "  lid_open: {at_least: 1}", "6: 'lid_open' is no number"),
    ("  overshoot: far", "  over_f: 2026-01-01", "6: when.over_f: datetime.date(2026, 1, 1) is no value"),
    ("act: burp_lid", "act: burp_lit", "18: there is no act 'burp_lit'; did you mean burp_lid?"),
    ("vent: top\n      opening: 0\n", "vent: tpo\n      opening: 0\n", "14: vent is 'tpo'; did you mean top?"),
    ("opening: 0\n", "opening: 7\n", "15: 'opening' is 7, it is a number between 0 and 1"),
    ("opening: 0\n", "opening: [1]\n", "15: 'opening' is [1], it is a number between 0 and 1"),
    ("opening: 0\n", "openin: 0\n", "15: set_vent has no parameter 'openin'; did you mean opening?"),
    ("      vent: top\n      opening: 0\n", "      vent: top\n", "set_vent lacks 'opening'; add it"),
    ("otherwise: 0.1}", "otherwse: 0.1}", "'opening' has an amount with 'otherwse'"),
    ("from: hold_top", "from: hold_tp", "there is no fact 'hold_tp'; did you mean hold_top?"),
    ("from: hold_top", "from: smoke", "'smoke' is no number; take a number from it"),
    ("wait_min: 5", "wait_min: -5", "'wait_min' is -5"),
    ("wait_min: 5", "wait_min: .inf", "'wait_min' is inf"),
    ("{over_f: {at_most: 0}}", "{over_f: {at_mst: 0}}", "25: then.steps.2.when.over_f.at_mst is 'at_mst', allowed are"),
    ("{over_f: {at_most: 0}}", "{smoke: {at_most: 0}}", "'smoke' is no number"),
    ("{over_f: {at_most: 0}}", "{over_f: {at_most: 0}, dome_f: {at_most: 1}}", "write one fact with one bound"),
    ("{target_f|", "{targit_f|", "there is no fact 'targit_f'; did you mean target_f?"),
    ("changed: 2026-11-25", "changed: 2026-13-45", "this is no YAML"),
    ("changed: 2026-11-25", "", "the key 'changed' is missing; add it"),
    ("when:\n  too-much-air: likely\n  overshoot: far\n", "when: []\n", "write facts with what they must be"),
    ("id: too-much-air--shut-it", "id: too-much-air--shut", ("1: the id is 'too-much-air--shut', file name and id must be "
     "the same; rename the file to too-much-air--shut.yaml")),
    ("  concern: fire\n", "", "9: `then` lacks concern, standing or steps"),
])
def test_a_mistake_in_a_rule(tiny, old, new, says):
    tiny.replace(RULE, old, new)
    said = refused(tiny)
    assert said.startswith(f"{RULE}:" if says[0].isdigit() else RULE) and says in said


def test_a_rule_in_the_wrong_folder(tiny):
    (tiny.folder / RULE).rename(tiny.folder / "safety/too-much-air--shut-it.yaml")
    assert "a rule of safety/ concludes warn" in refused(tiny)


def test_a_finding_in_a_rule_of_diagnose(tiny):
    tiny.rule("diagnose/odd", when={"too-much-air": "likely"})
    assert "findings are not known yet" in refused(tiny)


@pytest.mark.parametrize("text", ["id: [", "id: 'x\n", "\tid: x", "a: b: c", "id: x\x00", "{", "? [a]\n: b"])
def test_broken_yaml_names_the_file(tiny, text):
    tiny.write(RULE, text)
    said = refused(tiny)
    assert said.startswith(RULE) and "this is no YAML" in said


@pytest.mark.parametrize("text", ["", "[]", "just words", "42", "null"])
def test_yaml_that_is_no_rule(tiny, text):
    tiny.write(RULE, text)
    assert refused(tiny).startswith(f"{RULE}:1: ")


def test_a_file_that_is_no_text(tiny):
    (tiny.folder / RULE).write_bytes(b"\xff\xfe\x00id")
    assert "this is no text in UTF-8" in refused(tiny)


@pytest.mark.parametrize("file", ["vocabulary.yaml", "acts.yaml", "findings.yaml", "cautions.yaml", "phrases.yaml",
                                  "vent-chart.yaml"])
def test_a_missing_and_an_empty_list(tiny, file):
    tiny.write(file, "")
    assert refused(tiny).startswith(file)
    (tiny.folder / file).unlink()
    assert f"{file}: no such file" in f"{refused(tiny)}"


def test_an_act_that_needs_a_caution_nobody_wrote(tiny):
    tiny.replace("acts.yaml", "needs: [open-a-crack-first]", "needs: [crack-first]")
    assert "acts.yaml:14: there is no caution 'crack-first'" in refused(tiny)


def test_a_finding_named_like_a_fact(tiny):
    tiny.replace("findings.yaml", "findings:\n", "findings:\n  windy: {family: x, says: Wind.}\n")
    assert "findings.yaml:2: 'windy' is a fact too" in refused(tiny)


@pytest.mark.parametrize("name", ["nowhere", "file.txt"])
def test_a_folder_that_is_none(tmp_path, name):
    (tmp_path / "file.txt").write_text("x")
    with pytest.raises(RuleFileError, match="no such folder.*set DRAFTHAND_RULES"):
        read_rulebook(tmp_path / name)


def test_a_folder_that_may_not_be_read_is_not_taken_for_an_empty_one(tiny, monkeypatch):
    real = os.listdir

    def guarded(path):
        if str(path).endswith("recover"):
            raise PermissionError(13, "Permission denied")
        return real(path)

    monkeypatch.setattr(os, "listdir", guarded)
    with pytest.raises(RuleFileError, match="recover: it cannot be read .Permission denied."):
        rule_paths(tiny.folder)


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read(tiny):
    (tiny.folder / RULE).chmod(0)
    assert "it cannot be read" in refused(tiny)


def test_the_environment_names_the_folder(tiny, monkeypatch):
    monkeypatch.setenv("DRAFTHAND_RULES", str(tiny.folder))
    assert rules_folder() == tiny.folder
    assert len(read_rulebook().rules) == 6


@pytest.mark.parametrize("written", ["", "# only a remark\n", "- a\n- list\n", "a word\n"])
def test_a_file_that_holds_no_rule(tiny, written):
    (tiny.folder / RULE).write_text(written)
    assert refused(tiny).startswith(f"{RULE}:1: no rule stands in this file")
