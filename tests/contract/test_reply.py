"""A reply: what each key holds, what was heard and what was not, the one question, the understood and the off-topic."""

import pytest
from outside import acts, dangers

KEYS = {"heard", "also_heard", "situation", "findings", "steps", "cautions", "asks", "forecast", "check_in_min", "why",
        "text", "food", "understood"}


def test_a_reply_has_every_key(program):
    assert KEYS <= set(program.say("im 100 over", 0))


# ---- heard -------------------------------------------------------------------------------------------------------


def test_heard_holds_this_message_alone(program):
    program.say("dome 350", 0)
    reply = program.say("want 250", 1)
    assert reply["heard"] == {"target_f": 250}
    assert reply["situation"]["over_f"] == 100


def test_what_is_derived_stands_in_the_situation_only(program):
    reply = program.say("dome 400, want 250, both vents shut", 0)
    assert not {"over_f", "choked", "bottom_vent_in"} & set(reply["heard"])
    assert {"over_f", "choked", "bottom_vent_in"} <= set(reply["situation"])


def test_a_reading_line_is_heard_as_sent(program):
    sent = {"dome_f": 310, "smoke": "white"}
    assert program.send(reading=sent, at_min=0)["heard"] == sent


@pytest.mark.parametrize("words", ["should i open the lid?", "what if it hits 400", "my neighbour's is at 500",
                                   "last week it ran away to 600", "why not open the top vent"])
def test_questions_suppositions_and_other_days_state_nothing(program, words):
    assert program.say(words, 0)["heard"] == {}


# ---- findings and why ----------------------------------------------------------------------------------------------


def test_findings_rest_on_firings_and_the_surest_stands_first(program):
    reply = program.say("dome 400 want 250, top vent wide open, bottom vent 3 inches, white smoke, gasket leaks", 0)
    assert len(reply["findings"]) > 1
    assert all(firing["rule"] and firing["gave"] for firing in reply["why"])


def test_a_reading_is_measured_and_words_are_said(program):
    program.send(reading={"dome_f": 350}, at_min=0)
    reply = program.say("want 250, top vent half open", 1)
    origin = {used["fact"]: used["origin"] for firing in reply["why"] for used in firing["used"]}
    assert (origin["over_f"], origin["top_vent"]) == ("derived", "said")
    program.send(reset=True)
    reply = program.send(reading={"over_f": 100}, at_min=0)
    origin = {used["fact"]: used["origin"] for firing in reply["why"] for used in firing["used"]}
    assert origin["over_f"] == "measured"


def test_every_firing_but_those_that_always_hold_names_what_it_used(program):
    reply = program.say("dome 400 want 250, both vents shut, flames out of the top", 0)
    assert all(firing["used"] for firing in reply["why"])


# ---- when to look again --------------------------------------------------------------------------------------------


def test_nothing_pending_nothing_to_look_at(program):
    assert program.say("hello", 0)["check_in_min"] is None
    assert program.send(reset=True)["check_in_min"] is None


def test_the_first_wait_is_when_to_look_again(program):
    assert program.say("im 100 over", 0)["check_in_min"] == 5


def test_an_emergency_is_always_pending(program):
    assert program.say("the grease is on fire", 0)["check_in_min"]
    assert "Look again" not in program.last["text"]


# ---- the one question ----------------------------------------------------------------------------------------------


def test_the_question_stands_in_the_text(program):
    reply = program.say("im 100 over", 0)
    assert reply["asks"]["says"] in reply["text"]
    assert {"fact", "says", "choices", "because"} <= set(reply["asks"])


def test_what_is_known_is_not_asked(program):
    for words in ("im 100 over", "lit it 2 hours ago", "its rising", "smoke is thin and blue", "top vent half open"):
        reply = program.say(words, 0)
        assert reply["asks"] is None or reply["asks"]["fact"] not in reply["situation"]


def test_in_an_emergency_hands_come_before_questions(program):
    assert program.say("the grease is on fire", 0)["asks"] is None


# ---- not understood, off the subject, small talk -------------------------------------------------------------------

NOTHING_IN_IT = ["", " ", "asdf jkl", "🔥🔥🔥", "\x00\x07\x1b[31m", "x" * 10_000, "who won the game", "ich liebe dich",
                 "今日は天気がいい", "tell me a joke", "what's the capital of peru", "?", "...", "\u202eabc", "SELECT * FROM cooks"]


@pytest.mark.parametrize("words", NOTHING_IN_IT)
def test_what_cannot_be_used_is_not_understood_and_says_what_would_help(program, words):
    reply = program.say(words, 0)
    assert reply["understood"] is False
    assert reply["heard"] == {} and reply["situation"] == {} and reply["steps"] == []
    assert reply["asks"]["says"] in reply["text"]
    assert len(reply["text"]) < 250


SITUATIONS = ["dome 400, want 250", "dome 250, want 250 and steady", "dome 400, want 250, both vents shut",
              "the grease is on fire", "fire is out and the brisket is on", "there is painted wood in it, yellow smoke"]


@pytest.mark.parametrize("first", SITUATIONS)
@pytest.mark.parametrize("words", ["who won the game", "qwertz", "tell me a joke"])
def test_off_topic_talk_changes_nothing_and_leads_back(program, first, words):
    before = program.say(first, 0)
    reply = program.say(words, 0)
    assert reply["understood"] is False and reply["asks"]
    assert (reply["situation"], reply["steps"]) == (before["situation"], before["steps"])
    assert dangers(reply) == dangers(before)


def test_the_way_back_is_short(program):
    whole = program.say("dome 400, want 250", 0)["text"]
    assert len(program.say("who won the game", 0)["text"]) < len(whole) / 2


def test_thanks_is_understood_and_leaves_the_steps(program):
    before = program.say("dome 300, want 250", 0)
    reply = program.say("thanks", 0)
    assert reply["understood"] is True and reply["steps"] == before["steps"]
    assert len(reply["text"]) < len(before["text"])


# ---- why, why not, what if -----------------------------------------------------------------------------------------

ASIDES = ["why", "why not burp it", "why not open the lid", "what if it hits 400", "what if the lid is opened",
          "what if flames come out", "what if the moon falls down"]


@pytest.mark.parametrize("first", [*SITUATIONS, "hello"])
@pytest.mark.parametrize("words", ASIDES)
def test_asides_leave_situation_and_steps_as_they_are(program, first, words):
    before = program.say(first, 0)
    reply = program.say(words, 0)
    assert (reply["situation"], reply["steps"], reply["heard"]) == (before["situation"], before["steps"], {})
    assert dangers(before) <= dangers(reply)
    after = program.say("thanks", 0)
    assert (after["situation"], after["steps"]) == (before["situation"], before["steps"])


def test_what_was_imagined_is_a_reply_of_its_own(program):
    program.say("dome 260, want 250", 0)
    reply = program.say("what if it is 400", 0)
    inner = reply["what_if"]
    assert KEYS <= set(inner)
    assert (inner["situation"]["over_f"], reply["situation"]["over_f"]) == (150, 10)
    assert "burp_lid" in acts(inner) and "burp_lid" not in acts(reply)
    assert inner["what_if"] is None
    assert "assumed" in {used["origin"] for firing in inner["why"] for used in firing["used"]}


def test_what_is_supposed_answers_no_open_question(program):
    for asked, words in (("trend", "what if it rises"), ("smoke", "what if it smokes white"), ("dome_f", "what if its 400")):
        program.send(reset=True)
        program.send(reading={"target_f": 250} if asked == "dome_f" else {"dome_f": 320, "target_f": 250}, at_min=0)
        before = program.last["situation"]
        reply = program.say(words, 1)
        assert (reply["heard"], reply["situation"]) == ({}, before)


def test_there_is_no_what_if_unless_asked(program):
    assert program.say("dome 300, want 250", 0)["what_if"] is None
    assert program.say("why", 0)["what_if"] is None


def test_why_names_the_grounds(program):
    program.say("im 100 over", 0)
    assert "100 °F" in program.say("why", 0)["text"]


def test_why_not_names_the_condition_that_failed(program):
    program.say("im 100 over and climbing", 0)
    assert "rising" in program.say("why not leave it alone", 0)["text"]
