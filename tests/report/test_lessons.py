"""Lessons: each fires and stays silent as its cases say, at most five are told, and a broken file is told with its line."""

import pytest
from cook_stories import BARE, BY_HAND, EMPTY, long_cook

from advisor.errors import RuleFileError
from advisor.report.figures import figures_of
from advisor.report.known_figures import FIGURES
from advisor.report.lessons import MOST, choose, read_lessons
from advisor.rulebook.loader import rules_folder
from advisor.yamlfile import read_yaml

BOOK = read_lessons(rules_folder())
CASES = read_yaml(rules_folder() / "lessons.cases.yaml")
SMALL = """\
phrases: {PHRASES}
lessons:
  hot:
    tone: better
    worth: 50
    when: {over_f: {at_least: 50}}
    at: over_at
    says: It ran {over_f} over.
    source: judgement
"""


def test_every_lesson_has_cases_and_no_case_is_left_over():
    assert set(CASES) == set(BOOK.lessons)
    assert all(case["fires"] and case["silent"] for case in CASES.values())


@pytest.mark.parametrize("name", CASES)
def test_it_fires_and_stays_silent_as_its_cases_say(name):
    for figures in (*CASES[name]["fires"], *CASES[name]["silent"]):
        assert set(figures) <= set(FIGURES)
    assert all(BOOK.lessons[name].holds(figures) for figures in CASES[name]["fires"])
    assert not any(BOOK.lessons[name].holds(figures) for figures in CASES[name]["silent"])


@pytest.mark.parametrize("name", CASES)
def test_it_stays_silent_while_a_figure_in_its_words_is_not_known(name):
    lesson, figures = BOOK.lessons[name], CASES[name]["fires"][0]
    for needed in lesson.needs():
        assert not lesson.holds({key: value for key, value in figures.items() if key != needed})


def test_the_most_useful_come_first_and_at_most_five():
    chosen = choose(BOOK, figures_of(long_cook()))
    worths = [BOOK.lessons[lesson.id].worth for lesson in chosen]
    assert len(chosen) == MOST and worths == sorted(worths, reverse=True)
    assert [lesson.letter for lesson in chosen] == list("ABCDE")


def test_praise_takes_the_last_place_when_it_would_have_none():
    figures = {}
    for name in ("close-moves-crossed", "wide-near-target", "swung", "chased-the-lid", "fought-the-stall", "rested"):
        figures |= CASES[name]["fires"][0]
    chosen = choose(BOOK, figures)
    assert [lesson.tone for lesson in chosen] == ["better"] * 4 + ["well"]


def test_a_cook_that_went_well_is_only_praised():
    chosen = choose(BOOK, CASES["held-well"]["fires"][0] | CASES["came-up-gently"]["fires"][0])
    assert chosen and all(lesson.tone == "well" for lesson in chosen)


def test_what_a_more_useful_one_says_is_not_said_again():
    figures = CASES["wide-near-target"]["fires"][0] | CASES["overshot"]["fires"][0]
    assert [lesson.id for lesson in choose(BOOK, figures)] == ["wide-near-target"]
    assert [lesson.id for lesson in choose(BOOK, CASES["overshot"]["fires"][0])] == ["overshot"]


def test_little_told_teaches_little():
    assert {lesson.id for lesson in choose(BOOK, figures_of(BARE))} == {"no-target", "few-readings"}
    assert choose(BOOK, figures_of(EMPTY)) == ()


def test_each_points_at_its_minute():
    at = {lesson.id: lesson.at_min for lesson in choose(BOOK, figures_of(BY_HAND))}
    assert at["wide-near-target"] == 36.25 and at["waited-out-the-stall"] == 120


@pytest.fixture
def broken(tmp_path):
    """broken(old, new) -> the complaint about a small file in which one thing was changed."""
    phrases = "{" + ", ".join(f"{name}: words" for name in BOOK.phrases) + "}"

    def complaint(old, new):
        assert old in SMALL or old in phrases
        text = SMALL.replace("{PHRASES}", phrases)
        (tmp_path / "lessons.yaml").write_text(text.replace(old, new, 1), encoding="utf-8")
        with pytest.raises(RuleFileError) as caught:
            read_lessons(tmp_path)
        return str(caught.value)

    return complaint


@pytest.mark.parametrize(("old", "new", "line", "words"), [
    ("over_f: {at_least", "over_ff: {at_least", 3, "did you mean over_f"),
    ("{over_f} over", "{ovr_f} over", 3, "did you mean over_f"),
    ("at: over_at", "at: over_f", 7, "no minute"),
    ("tone: better", "tone: worse", 4, "allowed are"),
    ("worth: 50", "worht: 50", 5, "did you mean worth"),
    ("worth: 50", "worth: 500", 5, "less than or equal to 100"),
    ("at_least: 50", "at_leat: 50", 6, "at_least"),
    ("closing: words", "close: words", 1, "'closing' is missing"),
    ("closing: words", "closing: '{ovr_f}'", 1, "no figure 'ovr_f'"),
    ("    source: judgement", "    unless_told: [hto]\n    source: judgement", 9, "did you mean hot"),
    ("    source: judgement\n", "", 3, "source"),
])
def test_a_mistake_is_told_with_its_line(broken, old, new, line, words):
    complaint = broken(old, new)
    assert f"lessons.yaml:{line}: " in complaint and words in complaint


def test_a_missing_file_is_an_error_of_ours(tmp_path):
    with pytest.raises(RuleFileError, match="no such file"):
        read_lessons(tmp_path)
