"""From a situation to the thermal model's terms: readings, moves, what stands in the way of a forecast."""

import pytest

from advisor.outlook.recall import known_of
from advisor.profile import CookerProfile
from advisor.situation import Situation

PLAIN = CookerProfile()


@pytest.fixture
def known(rulebook, adviser):
    from advisor.wording import Wording

    def recall(*turns, now=None, profile=PLAIN):
        situation, vocabulary = Situation(), rulebook.vocabulary
        for minute, facts in turns:
            told = {name: vocabulary.check(name, value) for name, value in facts.items()}
            situation = situation.tell(told, "said", vocabulary, minute)
        now = turns[-1][0] if now is None else now
        return known_of(situation, adviser.advise(situation, now, Wording(vocabulary)).facts, profile, now)

    return recall


def test_readings_count_back_from_now(known):
    found = known((0, {"dome_f": 300, "target_f": 250}), (12, {"dome_f": 280}), now=15)
    assert [(r.at_min, r.dome_f) for r in found.readings] == [(-15, 300), (-3, 280)]


def test_a_dome_that_follows_from_the_distance_counts_as_read(known):
    found = known((0, {"target_f": 250, "over_f": 60}))
    assert found.now_f == 310


def test_a_vent_stands_before_its_first_move_where_it_stood(known):
    found = known((0, {"dome_f": 300, "target_f": 250, "top_vent": 0.5, "bottom_vent": 0.25}), (4, {"top_vent": 0.1}), now=5)
    assert (found.top, found.bottom) == (0.5, 0.25)
    assert [(m.at_min, m.top) for m in found.moves] == [(-1, 0.1)] or not found.moves


@pytest.mark.parametrize("more", [{"lid_open": True}, {"grease_fire": True}, {"fire_out": True}, {"stage": "shutting_down"},
                                  {"indoors": True}])
def test_what_the_model_does_not_play_is_not_forecast(known, more):
    assert known((0, {"dome_f": 300, "target_f": 250})) is not None
    assert known((0, {"dome_f": 300, "target_f": 250, **more})) is None


def test_without_target_or_fresh_reading_there_is_nothing_to_forecast(known):
    assert known((0, {"dome_f": 300})) is None
    assert known((0, {"target_f": 250})) is None
    assert known((0, {"dome_f": 300, "target_f": 250}), now=60) is None


def test_walls_and_kind_are_taken_over(known):
    soaked = known((0, {"dome_f": 300, "target_f": 250, "lit_ago_min": 200}), profile=CookerProfile(kind="small"))
    assert (soaked.soaked, soaked.kind) == (True, "small")
    assert known((0, {"dome_f": 300, "target_f": 250, "lit_ago_min": 20})).soaked is False
