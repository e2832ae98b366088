"""Steps reported done, questions given up, several cookers by name."""

from dataclasses import replace

import pytest

from advisor.cook import Cook, Waiting, effects
from advisor.cooknames import canonical, same_cooker
from advisor.reply import QuestionAsked, StepSaid
from advisor.stand import Stand


def step(n, act, wait=None, **parameters):
    return StepSaid(n=n, act=act, says="", wait_min=wait, **parameters)


SHUT_BOTH = (step(1, "set_vent", vent="bottom", opening=0), step(2, "set_vent", 5, vent="top", opening=0),
             step(3, "burp_lid", 10, crack_in=1, hold_s=20, times=1))
QUESTION = QuestionAsked(fact="top_vent", says="", choices=(), because="")


def test_a_vent_set_is_told_and_was_moved_just_now(rulebook):
    assert effects(SHUT_BOTH[0], rulebook.catalogue.acts["set_vent"]) == {"bottom_vent": 0.0, "vents_moved_ago_min": 0.0}


def test_done_steps_change_the_situation_with_origin_derived(rulebook):
    cook = Cook(steps=SHUT_BOTH).do([1, 2], rulebook, 7.0)
    fact = cook.situation.facts["top_vent"]
    assert (fact.value, fact.origin, fact.at_min) == (0.0, "derived", 7.0)


AIR_BACK = (step(1, "set_vent", 5, vent="top", opening=0.1), step(2, "set_vent", 10, vent="bottom", opening=0.25),
            step(3, "set_vent", vent="top", opening=0.2))


@pytest.mark.parametrize(("numbers", "now", "minutes"), [
    ([1], 40.0, [40.0]),                        # one step is reported when it is done
    ([1, 2, 3], 40.0, [25.0, 30.0, 40.0]),      # the waits between were kept; the last one's own has not run yet
    ([1, 2], 40.0, [35.0, 40.0]),
    ([1, 2, 3], 28.0, [20.0, 20.0, 28.0]),      # told at 20: nothing can have been done sooner
    ([1, 2, 3], 20.0, [20.0, 20.0, 20.0]),
])
def test_steps_reported_together_are_dated_by_the_waits_between_them(rulebook, numbers, now, minutes):
    cook = Cook(steps=AIR_BACK, waiting=Waiting(20.0, 25.0)).do(numbers, rulebook, now)
    assert [deed.at_min for deed in cook.deeds] == minutes
    assert [move.at_min for move in cook.situation.moves] == minutes
    left = cook.situation.at(rulebook.vocabulary, now)["vents_moved_ago_min"].value
    assert left == pytest.approx(now - minutes[-1])


CLOSED_IN_TIME = (step(1, "set_vent", vent="top", opening=0.1, when={"dome_f": {"at_least": 200.0}}),
                  step(2, "burp_lid", crack_in=1, hold_s=20, times=1, when={"dome_f": {"at_least": 275.0}}))


@pytest.mark.parametrize(("last_read", "numbers", "dome"), [(150.0, [1], 200.0), (220.0, [1], 220.0), (150.0, [2], 150.0)])
def test_a_vent_that_waited_for_a_reading_shows_that_the_dial_read_so(rulebook, last_read, numbers, dome):
    """Seen with an independent simulator: closed in time as told, "done", and the next reply, at the old dome, opened it again."""
    cook = Cook(steps=CLOSED_IN_TIME)
    cook = replace(cook, situation=cook.situation.tell({"dome_f": last_read}, "said", rulebook.vocabulary, 0.0))
    assert cook.do(numbers, rulebook, 9.0).situation.facts["dome_f"].value == dome


def test_without_a_timer_steps_reported_together_were_done_just_now(rulebook):
    cook = Cook(steps=AIR_BACK).do([1, 2, 3], rulebook, 40.0)
    assert [deed.at_min for deed in cook.deeds] == [40.0, 40.0, 40.0]


def test_steps_without_a_wait_between_them_were_done_together(rulebook):
    cook = Cook(steps=SHUT_BOTH, waiting=Waiting(0.0, 5.0)).do([1, 2], rulebook, 7.0)
    assert [deed.at_min for deed in cook.deeds] == [7.0, 7.0]
    cook = Cook(steps=SHUT_BOTH, waiting=Waiting(0.0, 5.0)).do([1, 2, 3], rulebook, 12.0)
    assert [deed.at_min for deed in cook.deeds] == [7.0, 7.0, 12.0]
    assert cook.situation.at(rulebook.vocabulary, 12.0)["vents_moved_ago_min"].value == 5.0


def test_the_steps_in_hand_end_with_the_first_wait(rulebook):
    cook = Cook(steps=SHUT_BOTH)
    assert cook.steps_in_hand() == (1, 2)
    assert cook.do([1, 2], rulebook, 0).steps_in_hand() == (3,)


def test_a_step_that_waits_for_a_reading_is_not_in_hand_with_those_before_it():
    settle = {"dome_f": {"at_most": 250.0}}
    steps = (step(1, "read_dome"), step(2, "set_vent", vent="top", opening=0.1).model_copy(update={"when": settle}),
             step(3, "set_vent", 10, vent="bottom", opening=0.25).model_copy(update={"when": settle}))
    assert Cook(steps=steps).steps_in_hand() == (1,)
    assert Cook(steps=steps, steps_done=frozenset({1})).steps_in_hand() == (2, 3)


def test_a_question_asked_in_vain_is_given_up():
    cook = Cook()
    for _ in range(3):
        cook = cook.advised(cook.situation, (), QUESTION)
    assert "top_vent" in cook.situation.declined


@pytest.mark.parametrize("name", ["number two", "2", "the second", "#2", "cooker 2", "second one", "no 2"])
def test_one_cooker_by_many_names(name):
    assert same_cooker("2", name), canonical(name)


@pytest.mark.parametrize(("one", "other"), [("1", "2"), ("left", "right"), ("pit 1", "pit 2"), ("12", "2")])
def test_two_cookers_stay_two(one, other):
    assert not same_cooker(one, other)


def test_a_slip_of_the_thumb_is_no_new_cooker():
    assert same_cooker("bertha", "berhta")


def test_each_cooker_keeps_its_own_situation(rulebook):
    stand = Stand()
    stand.switch("one")
    stand.tell("one", {"dome_f": 300.0}, "said", rulebook, 0)
    stand.switch("two")
    assert stand.cook.situation.facts == {}
    stand.switch("1")
    assert stand.cook.situation.facts["dome_f"].value == 300
    assert stand.names == ("one", "two")
