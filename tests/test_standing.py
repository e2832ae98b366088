"""Timers of a cook, 'what now' in three lines, and whether a reading changes the plan."""

import pytest

from advisor.cook import Cook, Waiting, waiting_after
from advisor.course import Course, course_of
from advisor.reply import StepSaid
from advisor.standing import standing_of
from advisor.wording import Wording


def step(n, act, wait=None, when=None, **parameters):
    return StepSaid(n=n, act=act, says=f"{act}.", wait_min=wait, when=when, **parameters)


SHUT_BOTH = (step(1, "set_vent", vent="bottom", opening=0), step(2, "set_vent", 5, vent="top", opening=0),
             step(3, "burp_lid", 10, crack_in=1, hold_s=20, times=1))


def lines(reply):
    return reply.text.split("\n")


# -- the timer -----------------------------------------------------------------------------------------------------

def test_the_wait_of_the_step_done_counts_and_not_that_of_the_next():
    waiting = waiting_after(Cook(steps=SHUT_BOTH), (1, 2), (step(1, "burp_lid", 10),), 10, 7.0)
    assert waiting == Waiting(7.0, 12.0, hands_off=True)


def test_what_is_left_of_a_wait_is_taken_from_the_new_steps():
    assert waiting_after(Cook(steps=SHUT_BOTH), (1, 2), (step(1, "wait", 3),), 3, 7.0) == Waiting(7.0, 10.0, True)


def test_a_step_without_a_wait_leaves_the_hands_busy():
    waiting = waiting_after(Cook(steps=SHUT_BOTH), (1,), SHUT_BOTH[1:], 5, 2.0)
    assert waiting == Waiting(2.0, 7.0, hands_off=False)


def test_a_wait_that_runs_on_keeps_its_beginning():
    cook = Cook(steps=(step(1, "wait", 5),), waiting=Waiting(2.0, 7.0, True))
    assert waiting_after(cook, (), (step(1, "wait", 3),), 3, 4.0) == Waiting(2.0, 7.0, True)
    assert waiting_after(cook, (), (step(1, "wait", 9),), 9, 4.0) == Waiting(4.0, 13.0, True)


def test_with_nothing_to_do_no_timer_runs():
    assert waiting_after(Cook(), (), (), None, 0.0) is None


def test_the_last_step_of_all_is_waited_out(conversation):
    cook = Cook(steps=SHUT_BOTH)
    assert waiting_after(cook, (3,), (), None, 1.0) == Waiting(1.0, 11.0, True)


def test_a_reply_sets_it_done_sets_it_anew_and_small_talk_leaves_it(conversation):
    conversation.say("im 100 over, want 250", 0)
    assert conversation.current.waiting == Waiting(0, 5, False)
    reply = conversation.say("done", 2)
    assert (conversation.current.waiting, reply.check_in_min) == (Waiting(2, 7, True), 5)
    for words in ("thanks", "why", "what if it hits 400", "what now"):
        conversation.say(words, 3)
        assert conversation.current.waiting == Waiting(2, 7, True), words
    conversation.reading({"dome_f": 345}, 4)
    assert conversation.current.waiting == Waiting(2, 7, True)
    conversation.reading({"dome_f": 340}, 8)
    assert conversation.current.waiting == Waiting(8, 13, False)   # the dome is read five minutes after a burp


def test_the_look_after_a_burp_comes_sooner_than_the_next_burp(conversation):
    """Wait 10 between burps: common practice, no published source."""
    conversation.say("im 100 over, want 250, been going 3 hours", 0)
    conversation.say("done", 2)
    conversation.say("340", 8)
    conversation.say("burped it", 9)
    for minute, dome in ((14, 330), (17, 325)):
        reply = conversation.reading({"dome_f": dome}, minute)
        assert reply.steps[0].act == "wait" and reply.steps[0].wait_min >= 19 - minute, minute
    assert conversation.reading({"dome_f": 322}, 19).steps[0].act == "burp_lid"


def test_the_text_names_the_wait_that_runs(conversation):
    conversation.say("im 100 over, want 250", 0)
    reply = conversation.done([1, 2], 2)
    assert f"Look again in {reply.check_in_min:.0f} minutes" in reply.text


def test_each_cooker_has_its_own(conversation):
    conversation.say("number one is at 350, want 250. the second one is at 310, want 225", 0)
    conversation.say("the second one is at 330", 4)
    ends = {standing.cooker: standing.left_min for standing in conversation.standings(4)}
    assert ends == {"1": 1, "2": 5}


def test_done_takes_the_timer_of_the_right_cooker_only(conversation):
    conversation.say("number one is at 350, want 250", 0)
    conversation.say("the second one is at 310, want 225", 1)
    conversation.say("done", 3)
    assert {standing.cooker: (standing.left_min, standing.hands_off) for standing in conversation.standings(3)} == {
        "1": (2, False), "2": (5, True)}


# -- what now ------------------------------------------------------------------------------------------------------

def test_with_nothing_under_way_it_is_answered_as_ever(conversation):
    assert "Tell me:" in conversation.say("what now", 0).text
    conversation.reset()
    assert len(lines(conversation.say("im 100 over what now", 0))) > 3


@pytest.mark.parametrize("words", ["what now", "What now?", "ok, what now", "where do we stand", "what's next", "status"])
def test_it_is_three_lines_dome_hand_next(conversation, words):
    conversation.say("the dome is at 350, want 250", 0)
    conversation.say("done", 1)
    conversation.reading({"dome_f": 344}, 3)
    dome, hand, danger, after = lines(conversation.say(words, 4))
    assert danger.startswith("DANGER:")
    assert dome == "The dome reads 344 °F, 94 °F over your 250 °F, falling 2 °F a minute."
    assert hand.startswith("In hand, 2 minutes left: Both vents shut")
    assert after.startswith("Next: Burp it")


def test_a_danger_stands_in_front_of_the_step_it_bears_on(conversation):
    conversation.say("the dome is at 350, want 250", 0)
    conversation.say("done", 1)
    waiting = conversation.say("what now", 2)
    assert lines(waiting)[2].startswith("DANGER:") and lines(waiting)[3].startswith("Next: Burp")
    conversation.reading({"dome_f": 344}, 7)
    burping = conversation.say("what now", 7)
    assert lines(burping)[1].startswith("DANGER:") and lines(burping)[2].startswith("In hand")


def test_programs_get_all_of_it_all_the_same(conversation):
    conversation.say("the dome is at 350, want 250", 0)
    reply = conversation.say("what now", 1)
    assert [step.act for step in reply.steps][:3] == ["set_vent", "set_vent", "burp_lid"]
    assert reply.situation["dome_f"] == 350 and reply.check_in_min == 5 and reply.why


def test_an_old_reading_is_said_with_its_age(conversation):
    conversation.say("the dome is at 350, want 250", 0)
    assert lines(conversation.say("what now", 8))[0].startswith("The dome read, 8 minutes ago, 350 °F")


def test_in_an_emergency_the_hands_come_first(conversation):
    conversation.say("grease fire! flames out of the top", 0)
    text = conversation.say("what now", 1).text
    assert text.startswith("DANGER:") and "\n1. " in text


def test_a_wait_that_is_over_is_not_in_hand_any_more(rulebook):
    cook = Cook(steps=(step(1, "wait", 5), step(2, "burp_lid", 10)), waiting=Waiting(0, 5, True))
    assert [s.act for s in standing_of(cook, {}, 4).in_hand] == ["wait"]
    over = standing_of(cook, {}, 6)
    assert (over.in_hand, over.then.act, over.due) == ((), "burp_lid", True)


def test_a_step_that_comes_due_at_a_reading_is_never_in_hand():
    cook = Cook(steps=(step(1, "set_vent", 10, {"dome_f": {"at_most": 250.0}}, vent="top", opening=0.1),))
    assert (standing_of(cook, {}, 6).in_hand, standing_of(cook, {}, 6).then.n) == ((), 1)


def test_done_with_reading_the_dome_moves_no_vent(conversation):
    for words, minute in (("im 100 over, want 250", 0), ("done", 1), ("330", 6), ("can't", 7)):
        conversation.say(words, minute)
    assert conversation.current.steps[0].act == "change_nothing" and conversation.current.steps[1].act == "read_dome"
    assert conversation.say("done", 8).situation["top_vent"] == 0


def test_a_step_waits_for_the_end_of_the_step_before(rulebook):
    cook = Cook(steps=(step(1, "burp_lid", 10),), waiting=Waiting(0, 5, True))
    assert standing_of(cook, {}, 3).in_hand == () and standing_of(cook, {}, 3).then.act == "burp_lid"


# -- still the same plan, or changed -------------------------------------------------------------------------------

def first(reply):
    return next(line for line in lines(reply) if not line.startswith("DANGER:") and line)


@pytest.fixture
def shut(conversation):
    """A conversation in which both vents were shut at minute 1 for a dome of 350, wanted 250."""
    conversation.say("the dome is at 350, want 250", 0)
    conversation.say("done", 1)
    return conversation


def test_a_reading_on_course_leaves_the_plan_alone(shut):
    assert first(shut.say("345", 3)) == "Still the same plan: hands off for 3 minutes more."


def test_on_course_and_the_wait_over_it_names_what_is_due(shut):
    assert first(shut.reading({"dome_f": 340}, 6)) == "Still the same plan: burp the lid."


def test_off_course_it_says_what_changed_and_why(shut):
    reply = climbing_after_burps(shut)
    assert first(reply) == ("Changed: keep the lid shut, then both vents shut; no longer top vent open a crack, then bottom vent a "
                            "quarter open - because the dome went from 300 °F to 330 °F in 8 minutes.")
    assert shut.current.waiting == Waiting(25, 40, False)


def climbing_after_burps(talk):
    """Two burps bring it down, then it climbs with everything shut."""
    for words, minute in (("340", 6), ("done", 7), ("300", 17), ("done", 18)):
        talk.say(words, minute)
    return talk.say("330", 25)


def test_the_same_off_course_plan_is_not_changed_twice(shut):
    climbing_after_burps(shut)
    assert first(shut.say("335", 27)).startswith("Still the same plan")


def test_another_target_is_the_reason(shut):
    assert "because you want 400 °F now." in shut.say("make it 400", 3).text


def test_a_first_message_has_no_course(conversation):
    assert not first(conversation.say("the dome is at 350, want 250", 0)).startswith(("Still", "Changed"))


def test_news_that_are_no_reading_are_named(shut):
    assert "no longer burp the lid - because you told me this: flames show." in shut.say("flames out of the top", 3).text


def test_news_that_come_when_a_wait_is_over_are_not_blamed_for_what_time_brought(rulebook):
    cook, wording = Cook(steps=SHUT_BOTH[2:], waiting=Waiting(3, 8)), Wording(rulebook.vocabulary)
    course = course_of(cook, {"raining": True}, (step(1, "stand_clear"),), None, rulebook.catalogue, wording, 9)
    assert course == Course(False, "Changed: stand clear; no longer burp the lid - because 6 minutes have passed.")


def test_on_course_the_hands_are_not_told_again_what_they_know(shut):
    before, after = shut.say("done", 2).text, shut.say("345", 4).text
    assert "Take care: Wear heat-proof gloves" in before and "It is working when:" in before
    assert "Take care:" not in after and "It is working when:" not in after
    assert "DANGER:" in after and "2. Then burp it" in after


def test_on_course_a_new_caution_is_said_all_the_same(shut):
    text = shut.say("heavy white smoke, it stings my eyes", 3).text
    assert "Still the same plan" in text and "Stand upwind" in text and "heat-proof gloves" not in text
