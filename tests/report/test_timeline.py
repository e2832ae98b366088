"""What happened, in words: numbers as on the curve, openings that differ are told apart, the same advice once."""

from cook_stories import BY_HAND, MORNING

from advisor.report.story import Advised, CookStory, VentMove
from advisor.report.timeline import happenings


def lines(**parts):
    return [(one.at_min, one.kind, one.says) for one in happenings(CookStory(MORNING, 100.0, **parts))]


def test_all_of_it_in_the_order_of_time():
    told = happenings(BY_HAND)
    assert [one.at_min for one in told] == sorted(one.at_min for one in told)
    assert {one.kind for one in told} == {"vents 1", "vents 2", "vents 3", "vents 4", "lid", "done", "advice", "note", "food"}


def test_a_visit_is_one_line_with_its_number():
    moves = (VentMove(5, "top", 0.2), VentMove(10, "top", 0.02, 0.04), VentMove(11, "bottom", 0.0, 1.0))
    assert lines(moves=moves) == [(5, "vents", "told: top a fifth open (20%)"),
                                  (10, "vents 1", "top open a hair (2%), was open a hair (4%); bottom shut, was wide open")]


def test_advice_repeated_is_told_once_and_long_advice_is_cut_short():
    steps = ("One.", "Two.", "Three.", "Four.", "Five.")
    assert lines(advice=(Advised(1, steps), Advised(2, steps), Advised(3, ()), Advised(4, steps))) == [
        (1, "advice", "One. Two. Three. (and 2 more)"), (4, "advice", "One. Two. Three. (and 2 more)")]


def test_a_danger_stands_once_before_the_advice_it_came_with():
    advice = (Advised(1, ("Burp it.",), ("Crack the lid first.",)), Advised(9, ("Burp it again.",), ("Crack the lid first.",)))
    assert lines(advice=advice) == [(1, "danger", "Crack the lid first."), (1, "advice", "Burp it."), (9, "advice", "Burp it again.")]
