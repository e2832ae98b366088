"""rules/README.md: what it shows is checked like any rule, and what it promises is what the checks say."""

import re
from pathlib import Path

import pytest

from advisor.errors import RuleFileError
from advisor.rule_lint import lint, run_cases
from advisor.rule_lint.checks import CHECKS
from advisor.rulebook.catalogue import LISTS
from advisor.rulebook.loader import read_rulebook, rules_folder
from advisor.rulebook.schema import CONCERNS, FINDING_GRADES, FOLDERS, KEYS_OF, STANDINGS, RuleFile

README = rules_folder() / "README.md"
RULE = "recover/too-much-air--turn-it-from-the-wind.yaml"


def examples() -> dict[str, str]:
    """File name -> text, for every YAML block of the page."""
    found = re.findall(r"`([\w/.-]+\.yaml)`\n\n```yaml\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    return dict(found)


@pytest.fixture
def shown(tmp_path: Path) -> Path:
    """A rules folder with the shipped lists and the rules of the page alone."""
    for name in ("vocabulary.yaml", *LISTS):
        (tmp_path / name).write_text((rules_folder() / name).read_text(encoding="utf-8"), encoding="utf-8")
    for name, text in examples().items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def test_the_page_shows_two_rules_and_their_cases():
    assert len(examples()) == 4 and RULE in examples()


def test_the_rules_shown_have_no_fault_and_their_cases_come_out(shown):
    of_the_page = [issue for issue in lint(shown) if Path(issue.file).parent != shown and issue.check != "unused"]
    assert of_the_page == []
    results = run_cases(read_rulebook(shown))
    assert len(results) == 6 and [str(result) for result in results if not result.passed] == []


@pytest.mark.parametrize(("old", "new"), [("windy", "windi"), ("shelter_from_wind", "shelter_from_wnd"),
                                          ("check", "chek")])
def test_the_complaints_shown_are_those_that_come(shown, old, new):
    text = (shown / RULE).read_text(encoding="utf-8")
    (shown / RULE).write_text(text.replace(old, new, 1) if old != "windy" else text.replace("  windy", "  windi"))
    with pytest.raises(RuleFileError) as caught:
        read_rulebook(shown)
    assert str(caught.value).removeprefix(f"{shown}/") in README.read_text(encoding="utf-8")


def test_the_failed_case_shown_is_the_one_that_comes(shown):
    name = "diagnose/too-much-air--wind-at-the-bottom.cases.yaml"
    (shown / name).write_text("fires: [{windy: true, bottom_vent: 0.25, trend: rising}]\nsilent: [{windy: false}]\n")
    (result,) = [result for result in run_cases(read_rulebook(shown)) if not result.passed]
    assert result.because in README.read_text(encoding="utf-8")


def test_every_check_folder_key_and_word_is_explained():
    page = README.read_text(encoding="utf-8")
    named = re.findall(r"^\| ([a-z-]+) \|", page, re.MULTILINE)
    assert [name for name in CHECKS if name not in named] == []
    words = [*(f"`{folder}/`" for folder in FOLDERS), *CONCERNS, *STANDINGS, *RuleFile.model_fields,
             *(key for keys in KEYS_OF.values() for key in keys), *(f"`{g}` {v:g}" for g, v in FINDING_GRADES.items())]
    assert [word for word in words if word not in page] == []
