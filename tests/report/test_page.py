"""The page: whole in itself, nothing told can become markup, every lesson and figure on it, units as the reader's."""

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from cook_stories import BARE, BY_HAND, EMPTY, HOSTILE, long_cook

from advisor.report.lessons import read_lessons
from advisor.report.page import NUMBERS_MOST, page
from advisor.report.plain import text
from advisor.report.report import report_on
from advisor.rulebook.loader import rules_folder
from advisor.units import UnitStyle
from advisor.wording import Wording

BOOK = read_lessons(rules_folder())
FAHRENHEIT = UnitStyle()
VOID = {"meta", "path", "use", "rect", "br"}


class Checked(HTMLParser):
    """Every element closed in its order; ids once; what is named lives on the page."""

    def __init__(self, written):
        super().__init__()
        self.open, self.ids, self.named, self.tags, self.words = [], [], [], [], []
        self.feed(written)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.open += [] if tag in VOID else [tag]
        for name, value in attrs:
            self.ids += [value] if name == "id" else []
            self.named += value.split() if name == "aria-labelledby" else []
            assert not name.startswith("on") and (name not in ("href", "src") or value.startswith("#"))

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        assert tag in VOID or self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data.replace("\N{NO-BREAK SPACE}", " "))


@pytest.fixture(scope="session")
def report(rulebook):
    """report(story, units) -> Report."""
    return lambda story, units=FAHRENHEIT: report_on(story, BOOK, Wording(rulebook.vocabulary, units))


@pytest.mark.parametrize("story", [BY_HAND, BARE, EMPTY, long_cook()], ids=["by hand", "bare", "empty", "long"])
def test_it_is_whole_in_itself_and_well_formed(report, story):
    written = page(report(story))
    checked = Checked(written)
    assert checked.open == [] and len(checked.ids) == len(set(checked.ids)) and set(checked.named) <= set(checked.ids)
    assert not {"script", "link", "img", "iframe", "object"} & set(checked.tags)
    assert "http" not in written and "@import" not in written and re.findall(r"url\((?!#)", written) == []


def test_nothing_that_was_told_becomes_markup(report):
    story = replace(BY_HAND, cooker=HOSTILE, food=HOSTILE, outcome=HOSTILE, notes=(replace(BY_HAND.notes[0], words=HOSTILE),),
                    advice=(replace(BY_HAND.advice[0], steps=(HOSTILE,)),), deeds=(replace(BY_HAND.deeds[0], says=HOSTILE),))
    written = page(report(story))
    checked = Checked(written)
    assert not {"script", "img"} & set(checked.tags) and checked.open == []
    assert written.count("&lt;script&gt;alert(") == 8       # title and heading hold cooker and food, then the four others
    assert "\u202e" not in written


def test_every_lesson_and_every_figure_stands_on_it(report):
    told = report(BY_HAND)
    words = " ".join(" ".join(Checked(page(told)).words).split())
    assert all(" ".join(told.said(lesson).split()) in words for lesson in told.lessons)
    assert all(row.name in words and row.value in words for row in told.rows())
    assert all(one.says in words for one in told.happenings)


def test_the_band_is_named_and_estimates_say_so(report):
    assert "Held means within 15\N{NO-BREAK SPACE}°F of the target" in page(report(BY_HAND))
    assert "as told" in page(report(BY_HAND))
    assert "an estimate by the thermal model" in page(report(replace(BY_HAND, fuel=EMPTY.fuel)))
    assert "not known" in page(report(EMPTY))


def test_celsius_for_who_speaks_celsius(report):
    told = report(BY_HAND, UnitStyle("C", "cm", "kg"))
    words = " ".join(Checked(page(told)).words)
    assert "121 °C" in words and "°F" not in words and "within 8 °C" in words and "1.5 kg" in words


def test_the_curve_stands_in_numbers_for_who_cannot_see_it(report):
    written = page(report(BY_HAND))
    numbers = written[written.index("The curve in numbers"):].replace("\N{NO-BREAK SPACE}", " ")
    assert '<th scope="row">07:10</th><td>290 °F</td><td>40 °F</td>' in numbers
    assert numbers.count("<tr>") <= NUMBERS_MOST + 2
    assert "The curve in numbers" not in page(report(EMPTY))
    assert 'aria-hidden="true"' in written and "aria-label=" in written


def test_an_empty_cook_says_that_there_is_nothing_to_learn(report):
    assert BOOK.phrases["no_lessons"] in " ".join(Checked(page(report(EMPTY))).words)


def test_the_same_in_a_few_lines(report):
    told = report(BY_HAND)
    lines = text(told).splitlines()
    assert lines[0] == "Cook 3, pork shoulder, the big one, 14 November 2026" and lines[1] == "06:10 to 10:10"
    assert "held within 15 °F: 71% of the time since" in lines
    assert "Next time, at 06:46: The top vent stood half open or more for 16 minutes after 215 °F" in text(told)
    assert "charcoal used: not known - tell the fuel level" in text(report(EMPTY))
