"""Whole turns in plain words: what is heard, what follows, what stays."""

import pytest

from advisor.conversation import Conversation
from advisor.errors import LineRefused, UnknownName, ValueRefused


def acts(reply):
    return [(step.act, step.parameters.get("vent"), step.parameters.get("opening")) for step in reply.steps]


def rules(reply):
    return {firing.rule for firing in reply.why}


def test_the_question_in_the_title(conversation):
    reply = conversation.say("I'm 100 degrees over, what now?", 0)
    assert reply.heard == {"over_f": 100}
    assert acts(reply)[:2] == [("set_vent", "bottom", 0), ("set_vent", "top", 0)]
    assert reply.check_in_min == 5
    assert reply.asks is not None
    assert reply.text.count("?") == 1


def test_a_whole_recovery_from_choke_to_settled(conversation):
    conversation.say("im 100 over, been going 3 hours, want 250", 0)
    reply = conversation.say("done, both shut", 1)
    assert (reply.steps[0].act, reply.steps[0].wait_min) == ("wait", 5)
    reply = conversation.say("340 now", 6)
    assert reply.steps[0].act == "burp_lid"
    reply = conversation.say("burped it", 7)
    assert (reply.steps[0].act, reply.steps[0].wait_min) == ("wait", 10)
    reply = conversation.say("now 255", 17)
    assert [step.parameters["vent"] for step in reply.steps if step.act == "set_vent"] == ["top", "bottom"]
    assert reply.situation["choked"] is True
    reply = conversation.say("done", 18)
    assert reply.situation["choked"] is False
    assert reply.situation["bottom_vent"] == 0.25
    reply = conversation.say("250 and steady", 30)
    assert reply.steps[0].act == "change_nothing"


def test_done_steps_are_written_into_the_situation(conversation):
    conversation.say("im 100 over", 0)
    reply = conversation.done([1, 2], 1)
    assert reply.situation["bottom_vent"] == 0 and reply.situation["top_vent"] == 0
    assert reply.situation["choked"] is True
    assert reply.situation["vents_moved_ago_min"] == 0
    used = {(fact.fact, fact.origin) for firing in reply.why for fact in firing.used}
    assert ("top_vent", "derived") in used


def test_ages_grow_between_turns(conversation):
    conversation.say("lit it 20 min ago", 0)
    assert conversation.say("dome 300", 15).situation["lit_ago_min"] == 35


def test_why_leaves_everything_as_it_is(conversation):
    before = conversation.say("im 100 over", 0)
    reply = conversation.say("why", 1)
    assert (reply.situation, reply.steps) == (before.situation, before.steps)
    assert reply.text != before.text and reply.heard == {}


def test_why_not_names_the_first_condition_that_failed(conversation):
    conversation.say("im 100 over and still climbing", 0)
    text = conversation.say("why not leave it alone", 0).text
    assert "falling" in text and "rising" in text


def test_why_not_something_dangerous_is_answered_by_the_danger(conversation):
    conversation.say("grease fire help", 0)
    assert "throws the fire at you" in conversation.say("why not water", 0).text.split("why")[-1]


def test_what_if_answers_apart(conversation):
    before = conversation.say("im 100 over", 0)
    reply = conversation.say("what if its already falling", 0)
    assert reply.what_if.steps[0].act == "change_nothing"
    assert reply.steps == before.steps and "trend" not in reply.situation
    assert "trend" not in conversation.say("hm", 0).situation


def test_a_danger_is_repeated_while_it_lasts(conversation):
    conversation.say("both vents shut, 400, want 250", 0)
    for words in ("why", "hello", "who won the game"):
        reply = conversation.say(words, 1)
        assert any(caution.level == "danger" for caution in reply.cautions)
        assert "DANGER" in reply.text


def test_a_question_the_cook_cannot_answer_is_not_asked_again(conversation):
    first = conversation.say("im 100 over", 0).asks.fact
    assert conversation.say("no idea", 0).asks.fact != first


def test_replies_come_in_the_units_the_person_speaks(conversation):
    text = conversation.say("it's at 180 C and I'm after 110 C", 0).text
    assert "°C" in text and "°F" not in text


def test_two_cookers_in_one_message(conversation):
    reply = conversation.say("number one is holding 250 nicely, number two is 120 over and climbing", 0)
    assert reply.cooker == "2"
    assert [other.cooker for other in reply.also_heard] == ["1"]
    assert reply.steps[0].act == "set_vent"


def test_each_cooker_has_its_own_situation(conversation):
    conversation.say("the first one is at 350, want 250", 0)
    conversation.switch("two", 1)
    assert "dome_f" not in conversation.say("this one is fine", 1).situation
    assert conversation.switch("number one", 2).situation["dome_f"] == 350


def test_a_reading_is_measured_and_refused_when_unbelievable(conversation):
    assert conversation.reading({"dome_f": 310}, 0).situation["dome_f"] == 310
    for bad, error in (({"dome_f": 5000}, ValueRefused), ({"dome_f": float("nan")}, ValueRefused),
                       ({"dom_f": 310}, UnknownName), ({"walls": "hot"}, LineRefused), ({"lid_open": "yes"}, ValueRefused)):
        with pytest.raises(error):
            conversation.reading({"grate_f": 200} | bad, 1)
    assert "grate_f" not in conversation.status(1).situation


def test_a_step_that_does_not_exist_is_refused(conversation):
    conversation.say("im 100 over", 0)
    with pytest.raises(LineRefused):
        conversation.done([99], 0)


def test_nothing_usable_says_what_would_help(conversation):
    reply = conversation.say("asdfgh jkl", 0)
    assert reply.understood is False and reply.asks is not None


def test_reset_forgets_everything(conversation):
    conversation.say("im 100 over", 0)
    assert conversation.reset().situation == {}
    assert "over_f" not in conversation.say("hello", 0).situation


def test_a_figure_that_cannot_be_right_is_named_and_nothing_is_lost(conversation):
    conversation.say("want 250, dome 300", 0)
    reply = conversation.say("dome is 5000 degrees", 1)
    assert "5000" in reply.text
    assert reply.situation["dome_f"] == 300


def test_the_same_words_give_the_same_reply(rulebook):
    from advisor.conversation import Conversation

    replies = [Conversation(rulebook).say("im 100 over and there is white smoke", 0).as_json() for _ in range(2)]
    assert replies[0] == replies[1]


@pytest.mark.parametrize("words", ["opened the lid to spritz and it dropped to 200 from 250",
                                   "i lifted the lid to check and now its 205, target 250",
                                   "had a peek and temp tanked to 180"])
def test_a_dip_told_with_an_opened_lid_is_left_alone(conversation, words):
    reply = conversation.say(words, 0)
    assert "recover/lid-dip--leave-it" in rules(reply)
    assert reply.steps[0].act == "change_nothing"


def test_the_last_message_can_be_taken_back(conversation):
    conversation.say("dome 310, want 250", 0)
    conversation.say("top vent is shut", 1)
    back = conversation.say("scratch that", 2)
    assert "top_vent" not in back.situation and back.situation["dome_f"] == 310
    assert "Taken back" in back.text
    assert "dome_f" not in conversation.say("undo", 3).situation
    assert "nothing to take back" in conversation.say("forget what I said", 4).text


def test_scratch_that_with_a_better_figure_corrects(conversation):
    conversation.say("dome 310, want 250", 0)
    assert conversation.say("scratch that, its 340", 1).situation["dome_f"] == 340


def test_a_report_is_no_answer_to_what_is_wanted(conversation):
    asked = conversation.say("im at 225", 0).asks
    while asked and asked.fact != "target_f":
        asked = conversation.say("no idea", 1).asks
    reply = conversation.say("now 255 and climbing", 2)
    assert reply.heard == {"dome_f": 255, "trend": "rising"}


@pytest.mark.parametrize(("words", "act"), [
    ("its way too hot", {"act": "set_vent", "vent": "top", "opening": 0.125}),
    ("cant get it hot enough for pizza", {"act": "set_vent", "vent": "bottom", "opening": 1}),
    ("dome says 700 is that dangerous", {"act": "set_vent", "vent": "top", "opening": 0.125}),
])
def test_trouble_without_figures_gets_a_first_step(conversation, words, act):
    steps = [step.model_dump() for step in conversation.say(words, 0).steps]
    assert any(act.items() <= step.items() for step in steps)


def test_a_reading_alone_is_asked_for_its_target(conversation):
    assert conversation.say("kamado at 450", 0).asks.fact == "target_f"


def test_a_question_refuses_no_step(conversation):
    assert "Leave that step" not in conversation.say("is the outside too hot to touch", 0).text


def test_a_way_of_cooking_stands_for_a_target_until_one_is_told(conversation):
    reply = conversation.say("kamado at 450 and i only wanted low and slow", 0)
    assert reply.heard == {"dome_f": 450, "cook_style": "low"} and reply.situation["over_f"] == 200
    assert "I take your target as 250 °F" in reply.text
    assert conversation.say("want 230", 1).situation["over_f"] == 220


def test_ash_that_was_cleared_is_not_cleared_again(conversation):
    conversation.say("stuck at 205, want 250, lots of ash", 0)
    reply = conversation.say("cleared it. still 205", 12)
    assert reply.heard["ash"] == "light" and "clear_ash" not in [step.act for step in reply.steps]


@pytest.mark.parametrize("said", ["opened the top a crack", "ok opened the top a crack", "top's open a crack now"])
def test_one_vent_set_is_not_the_other(rulebook, said):
    talk = Conversation(rulebook)
    first = talk.say("dome 255 want 250, both vents shut for 20 minutes, lit 2 hours ago", 0)
    assert [step.parameters.get("vent") for step in first.steps[:2]] == ["top", "bottom"]
    second = talk.say(said, 2)
    assert second.situation["bottom_vent"] == 0
    assert second.steps[0].act == "set_vent" and second.steps[0].parameters["vent"] == "bottom"
    third = talk.say("252", 5)
    assert third.situation["bottom_vent"] == first.steps[1].parameters["opening"]


def test_a_crack_told_is_the_crack_that_was_advised(rulebook):
    talk = Conversation(rulebook)
    first = talk.say("dome 255 want 250, both vents shut for 20 minutes, lit 2 hours ago", 0)
    second = talk.say("opened the top a crack and the bottom an inch", 2)
    assert second.situation["top_vent"] == first.steps[0].parameters["opening"]


@pytest.mark.parametrize("said", ["dun", "shut already", "already shut", "theyre shut", "both shut already"])
def test_vents_shut_already_are_the_steps_in_hand(rulebook, said):
    talk = Conversation(rulebook)
    talk.say("dome 380 want 250, both vents half, lit 2 hours ago", 0)
    reply = talk.say(said, 2)
    assert (reply.situation["bottom_vent"], reply.situation["top_vent"]) == (0, 0)
