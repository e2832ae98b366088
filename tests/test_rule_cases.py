"""The shipped rules: the lint finds nothing, every case comes out as written, and every rule fires in one of them."""

from advisor.rule_lint import lint, run_cases


def test_the_lint_finds_nothing():
    assert [str(issue) for issue in lint()] == []


def test_every_case_comes_out_as_written(rulebook):
    assert [str(result) for result in run_cases(rulebook) if not result.passed] == []


def test_every_rule_fires_in_a_case_and_stays_silent_in_another(rulebook):
    results = run_cases(rulebook)
    for kind in ("fires", "silent"):
        shown = {result.rule for result in results if result.kind == kind and result.passed}
        assert [rule.id for rule in rulebook.rules if rule.id not in shown] == []
