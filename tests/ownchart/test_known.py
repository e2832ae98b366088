"""Profiles by the names of cookers: out of the logbook, under what a file says, used for the cooker they belong to."""

import pytest

from advisor.conversation import Conversation
from advisor.logbook.opening import open_logbook
from advisor.ownchart.known import kept_profile, known_cookers
from advisor.profile import CookerProfile, OwnChart, OwnPoint


def charted(opening, **known):
    points = tuple(OwnPoint(dome_f=dome, opening=opening, log_sd=0.2) for dome in (200.0, 450.0))
    return CookerProfile(chart=OwnChart(points=points, cooks=5), **known)


@pytest.fixture
def logbook(tmp_path):
    book = open_logbook(tmp_path)
    for name, opening in (("left", 0.05), ("right", 0.5)):
        book.keep_profile(name, charted(opening).model_dump(mode="json", exclude_none=True))
    yield book
    book.close()


def test_each_cooker_has_its_own(logbook):
    with logbook.reading() as book:
        known = known_cookers(book, CookerProfile())
    assert {name: profile.chart.points[0].opening for name, profile in known.items()} == {"left": 0.05, "right": 0.5}


def test_the_one_nobody_names_is_the_one_a_file_names(logbook):
    with logbook.reading() as book:
        known = known_cookers(book, CookerProfile(name="Right", top_travel_in=5.0))
    assert (known[""].chart.points[0].opening, known[""].top_travel_in) == (0.5, 5.0)
    assert known["left"].top_travel_in == 3.0


def test_what_a_file_says_goes_before_what_was_kept():
    kept = charted(0.2, kind="large", altitude_ft=100.0).model_dump(mode="json")
    found = kept_profile(kept, CookerProfile(kind="small"))
    assert (found.kind, found.altitude_ft, found.chart.cooks) == ("small", 100.0, 5)


@pytest.mark.parametrize("data", [None, {"kind": "huge"}, {"chart": {"points": [], "cooks": 1}}, {"colour": "green"},
                                  {"learned": {"version": 99}}])
def test_what_cannot_be_read_counts_as_not_known(data):
    assert kept_profile(data) == CookerProfile()


def test_a_conversation_goes_by_the_chart_of_the_cooker_in_hand(rulebook, logbook):
    conversation = Conversation(rulebook)
    with logbook.reading() as book:
        conversation.know(known_cookers(book, CookerProfile()))
    situation = {"dome_f": 262, "target_f": 275, "bottom_vent": 1.0, "top_vent": 1.0, "trend": "rising", "lit_ago_min": 40}

    def tops(cooker):
        conversation.switch(cooker, 0)
        steps = conversation.reading(situation, 0).steps
        return [step.parameters["opening"] for step in steps if step.parameters.get("vent") == "top"]

    left, right, third = tops("the left one"), tops("right"), tops("third")
    assert max(left) < min(third) < max(right)
    conversation.use(rulebook)
    assert tops("left") == left
