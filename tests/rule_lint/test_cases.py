"""Running cases: a case passes when the rule fired, or did not, in a full run; a failure says why."""

import pytest

from advisor.errors import RuleFileError
from advisor.rule_lint import cases_text, run_cases


def failed(tiny, told: str, kind: str) -> str:
    other = "silent: [{windy: false}]" if kind == "fires" else "fires: [{windy: true, over_f: 100}]"
    tiny.write("recover/too-much-air--shut-it.cases.yaml", f"{kind}:\n  - {told}\n{other}\n")
    found = [result for result in run_cases(tiny.rulebook) if not result.passed]
    assert len(found) == 1 and found[0].line == 2
    return str(found[0]).removeprefix(f"{tiny.folder}/")


@pytest.mark.parametrize(("told", "why"), [
    ("{windy: true, over_f: 50}", "it needs that overshoot is far, but it is small"),
    ("{over_f: 100}", "it needs that too-much-air is likely, nothing speaks for that"),
    ("{windy: true}", "it needs that too-much-air is likely, nothing speaks for that"),
    ("{windy: true, over_f: 100, lid_open: true}", "held back by lid_open = true (said)"),
])
def test_a_case_that_should_fire_says_what_kept_the_rule(tiny, told, why):
    assert failed(tiny, told, "fires") == ("recover/too-much-air--shut-it.cases.yaml:2: recover/too-much-air--shut-it "
                                           f"fires on {told}: FAILED, {why}")


def test_a_fact_that_is_unknown_says_so(tiny):
    tiny.rule("teach/both", when={"windy": True, "dome_f": {"above": 300}}, fires=[{"windy": True}])
    assert "it needs that dome_f above 300, unknown here" in cases_text(run_cases(tiny.rulebook))


def test_a_case_that_should_stay_silent_says_what_made_it_fire(tiny):
    assert "FAILED, it fired on too-much-air = 0.6 (derived), overshoot = far (derived)" in failed(
        tiny, "{windy: true, over_f: 100}", "silent")


def test_what_follows_by_arithmetic_counts(tiny):
    tiny.rule("teach/sum", when={"over_f": {"above": 90}}, fires=[{"dome_f": 350, "target_f": 250}])
    assert all(result.passed for result in run_cases(tiny.rulebook))


def test_cases_that_can_not_be_told_name_the_line(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "fires:\n  - {about: wind}\nsilent:\n  - {dome_f: .nan}\n")
    with pytest.raises(RuleFileError, match=r"wind--shelter.cases.yaml:4: dome_f was given as nan"):
        run_cases(tiny.rulebook)


def test_the_summary_counts(tiny):
    assert cases_text(run_cases(tiny.rulebook)) == "13 cases of 6 rules ran: all came out as written."
    failed(tiny, "{over_f: 100}", "fires")
    assert cases_text(run_cases(tiny.rulebook)).endswith("12 cases of 6 rules ran: 1 failed.")


def test_a_run_leaves_nothing_behind(tiny):
    rulebook = tiny.rulebook
    assert run_cases(rulebook) == run_cases(rulebook)
