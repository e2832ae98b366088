"""The working memory: newest word wins, ages grow, flags end, nothing changes in place."""

import pytest

from advisor.situation import Situation


@pytest.fixture
def told(rulebook):
    """told((minute, {facts}), ...) -> Situation."""

    def tell(*turns) -> Situation:
        situation = Situation()
        for minute, facts in turns:
            checked = {name: rulebook.vocabulary.check(name, value) for name, value in facts.items()}
            situation = situation.tell(checked, "said", rulebook.vocabulary, minute)
        return situation

    return tell


def test_a_newer_distance_replaces_an_older_reading(told):
    assert "dome_f" not in told((0, {"dome_f": 350}), (5, {"over_f": 60})).facts


def test_a_newer_reading_replaces_an_older_distance(told):
    assert "over_f" not in told((0, {"over_f": 60}), (5, {"dome_f": 350})).facts


def test_reading_and_distance_in_one_breath_say_the_target(told):
    target = told((0, {"dome_f": 350, "over_f": 100})).facts["target_f"]
    assert (target.value, target.origin) == (250, "derived")


def test_ages_grow_and_deadlines_draw_near(told, rulebook):
    situation = told((0, {"lit_ago_min": 20, "serve_in_min": 60, "dome_f": 300}))
    value = lambda name: situation.value(name, rulebook.vocabulary, 15)
    assert (value("lit_ago_min"), value("serve_in_min"), value("dome_f")) == (35, 45, 300)


def test_a_deadline_stops_at_zero(told, rulebook):
    assert told((0, {"serve_in_min": 10})).value("serve_in_min", rulebook.vocabulary, 60) == 0


def test_a_vent_told_elsewhere_was_moved_just_now(told):
    situation = told((0, {"top_vent": 0.5, "vents_moved_ago_min": 30}), (10, {"top_vent": 0.1}))
    assert situation.facts["vents_moved_ago_min"].value == 0
    assert situation.facts["vents_moved_ago_min"].at_min == 10


def test_words_about_when_a_vent_was_moved_stand(told):
    situation = told((0, {"top_vent": 0.5}), (10, {"top_vent": 0.1, "vents_moved_ago_min": 4}))
    assert situation.facts["vents_moved_ago_min"].value == 4


def test_a_vent_told_the_same_again_was_not_moved(told):
    assert "vents_moved_ago_min" not in told((0, {"top_vent": 0.5}), (10, {"top_vent": 0.5})).facts


def test_opening_a_vent_ends_the_choke(told):
    assert told((0, {"choked": True}), (5, {"top_vent": 0.1})).facts["choked"].value is False


def test_a_vent_shut_again_does_not_end_the_choke(told):
    assert told((0, {"choked": True}), (5, {"top_vent": 0})).facts["choked"].value is True


def test_a_rising_dome_ends_a_dead_fire(told):
    assert told((0, {"fire_out": True}), (20, {"trend": "rising"})).facts["fire_out"].value is False


def test_inches_and_fraction_of_one_vent_replace_one_another(told):
    assert "bottom_vent" not in told((0, {"bottom_vent": 0.5}), (1, {"bottom_vent_in": 1})).facts


def test_an_old_trend_does_not_outlive_a_new_reading(told):
    assert "trend" not in told((0, {"dome_f": 350, "trend": "rising"}), (20, {"dome_f": 330})).facts


def test_a_fresh_trend_stays_with_its_reading(told):
    assert "trend" in told((0, {"trend": "rising"}), (1, {"dome_f": 330})).facts


def test_telling_leaves_the_old_situation_as_it_was(told, rulebook):
    before = told((0, {"dome_f": 350}))
    before.tell({"dome_f": 200.0}, "said", rulebook.vocabulary, 3)
    assert before.facts["dome_f"].value == 350


def test_a_question_declined_is_open_again_once_told(told, rulebook):
    situation = told((0, {})).decline("top_vent")
    assert "top_vent" in situation.declined
    assert "top_vent" not in situation.tell({"top_vent": 0.2}, "said", rulebook.vocabulary, 1).declined


def test_moves_are_remembered_with_their_minute(told):
    situation = told((0, {"top_vent": 0.5}), (10, {"top_vent": 0.1}), (20, {"bottom_vent": 0.25, "vents_moved_ago_min": 5}))
    assert [(move.at_min, move.bottom, move.top) for move in situation.moves] == [(10, None, 0.1), (15, 0.25, None)]


def test_a_lid_lifted_is_a_move(told):
    assert [(move.at_min, move.lid) for move in told((10, {"lid_opened_ago_min": 3})).moves] == [(7, True)]


def test_smoke_of_another_colour_ends_what_was_said_of_the_old(told):
    facts = told((0, {"smoke": "white", "smoke_amount": "heavy", "smell": "acrid"}), (10, {"smoke": "thin_blue"})).facts
    assert "smoke_amount" not in facts and "smell" not in facts


def test_the_same_smoke_told_again_keeps_it_and_says_since_when(told):
    facts = told((0, {"smoke": "white", "smoke_amount": "heavy"}), (10, {"smoke": "white"})).facts
    assert facts["smoke_amount"].value == "heavy"
    assert (facts["smoke"].since_min, facts["smoke"].at_min) == (0, 10)


def test_a_reading_of_hours_ago_says_nothing_about_now(told, rulebook):
    situation = told((0, {"dome_f": 350, "target_f": 250, "grease_fire": True}))
    later = situation.at(rulebook.vocabulary, 600)
    assert "dome_f" not in later and "target_f" in later and "grease_fire" in later
    assert situation.value("dome_f", rulebook.vocabulary, 600) is None
