"""What stands around the advice: greetings, thanks, refusals, talk that could not be used, the same deed in other words."""

import pytest

from advisor.conversation import Conversation
from advisor.reply import Reply


def hold(rulebook, *turns: str) -> list[Reply]:
    """The replies to one message a minute."""
    conversation = Conversation(rulebook)
    return [conversation.say(words, float(minute)) for minute, words in enumerate(turns)]


def test_who_has_told_enough_is_not_invited_to_tell(rulebook):
    text = hold(rulebook, "hey my grill ran away, its at 410 and i wanted 250")[0].text
    assert "Hello" not in text and "160 °F over" in text
    assert "Hello" in hold(rulebook, "hey there")[0].text


def test_nothing_is_corrected_that_was_never_told(rulebook):
    assert "corrected" not in hold(rulebook, "dome 300 want 250", "sorry, bottom vent is half open")[-1].text
    assert "corrected" in hold(rulebook, "dome 300 want 250", "sorry i meant dome 320")[-1].text


def test_thanks_get_no_question_and_leave_the_one_asked_open(rulebook):
    asked, thanked, answered = hold(rulebook, "dome 300 want 250", "ta", "half")
    assert asked.asks.fact == "top_vent" and thanked.asks is None
    assert answered.heard == {"top_vent": 0.5}


@pytest.mark.parametrize("words", ["no i dont know how the vents are im at work, my wife's watching it",
                                   "no idea about the vents", "stop asking about the vents"])
def test_what_was_refused_is_not_asked_again(rulebook, words):
    replies = hold(rulebook, "dome 300 want 250", words, "still 300", "295", "dome is 300")
    assert replies[0].asks.fact == "top_vent"
    assert not {"top_vent", "bottom_vent"} & {reply.asks.fact for reply in replies[1:] if reply.asks}


def test_a_question_is_given_up_by_its_name_while_another_stands_open(rulebook):
    conversation = Conversation(rulebook)
    conversation.say("dome 300 want 250", 0.0)
    reply = conversation.say("stop asking about the damn smoke", 1.0)
    assert "charcoal fires" not in reply.text
    assert conversation.current.situation.declined == {"smoke"}


@pytest.mark.parametrize("words", ["the skin is purple", "my charcoal is singing", "it tickles the hinge of the grill"])
def test_talk_about_the_cook_is_not_called_off_the_subject(rulebook, words):
    assert "I only know charcoal fires" not in hold(rulebook, words)[0].text


def test_talk_about_something_else_is(rulebook):
    reply = hold(rulebook, "who won the football")[0]
    assert "I only know charcoal fires" in reply.text and not reply.understood


TWO = "number one is 320 want 250, number two is 240 want 250"


@pytest.mark.parametrize(("words", "cooker", "facts"), [
    ("two: fire's been dead maybe 20 min", "2", {"fire_died_ago_min": 20}), ("two is 230", "2", {"dome_f": 230}),
    ("on number two the smoke is white", "2", {"smoke": "white"}), ("1: 310", "1", {"dome_f": 310}),
    ("and two's still 230", "2", {"dome_f": 230}), ("#2 is at 300", "2", {"dome_f": 300}),
])
def test_words_about_another_cooker_go_to_that_one(rulebook, words, cooker, facts):
    reply = hold(rulebook, TWO, words)[-1]
    assert facts.items() <= reply.heard.items() and reply.heard["cooker"] == cooker


@pytest.mark.parametrize("words", ["two is done", "310", "two burps so far"])
def test_a_bare_number_that_names_no_cooker_stays_here(rulebook, words):
    assert "cooker" not in hold(rulebook, TWO, words)[-1].heard


def test_a_figure_for_another_cooker_answers_no_question_about_this_one(rulebook):
    conversation = Conversation(rulebook)
    conversation.switch("number one", 0.0)
    conversation.reading({"dome_f": 350}, 0.0)
    conversation.switch("number two", 1.0)
    assert conversation.switch("1", 2.0).asks.fact == "target_f"
    assert conversation.say("#2 is at 300", 3.0).situation["dome_f"] == 300


@pytest.mark.parametrize("words", ["i have shut the bottom and the top", "both are shut now", "top and bottom closed"])
def test_the_same_deed_in_other_words_gets_the_same_reply(rulebook, words):
    plain, other = (hold(rulebook, "dome 330 want 250", said)[-1] for said in ("ok shut both", words))
    assert other.text == plain.text and other.steps[0].wait_min == 5


def test_how_a_vent_stands_is_no_report_of_a_deed(rulebook):
    asked, answered = hold(rulebook, "dome 300 want 250", "barely open")
    assert asked.asks.fact == "top_vent" and "vents_moved_ago_min" not in answered.situation


def test_nothing_is_given_up_or_left_where_nothing_was_asked_or_told(rulebook):
    assert "do without it" not in hold(rulebook, "i forgot about it for 2 hours")[0].text
    assert "Leave that step" not in hold(rulebook, "the lid is stuck")[0].text


@pytest.mark.parametrize("words", ["yes", "huh", "lol", "??", "ok"])
def test_a_word_or_two_is_not_called_off_the_subject(rulebook, words):
    assert "I only know charcoal fires" not in hold(rulebook, words)[0].text
