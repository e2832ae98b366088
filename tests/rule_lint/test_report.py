"""What the check says at the terminal."""

from advisor.rule_lint import check_text, lint


def test_nothing_to_mend(tiny):
    assert check_text(lint(tiny.folder), tiny.folder) == "6 rules checked: nothing to mend."


def test_each_issue_has_file_line_three_parts_and_the_check(tiny):
    tiny.rule("teach/never", when={"too-much-air": "certain"})
    lines = check_text(lint(tiny.folder), tiny.folder).splitlines()
    assert lines == [
        (f"{tiny.folder}/teach/never.yaml:5: all evidence for too-much-air taken together reaches 0.60, certain needs "
        "0.85, the rule can never fire; ask for less or add evidence in diagnose/ [can-fire]"),
        "1 issue in 1 file (can-fire 1)."]


def test_a_folder_that_is_not_there(tmp_path):
    assert "no such folder" in check_text(lint(tmp_path / "nowhere"), tmp_path / "nowhere")
