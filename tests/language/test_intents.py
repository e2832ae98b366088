"""What the person wants, and whose cooker it is."""

import pytest


@pytest.mark.parametrize(
    ("words", "intent"),
    [
        ("why", "why"),
        ("why should i wait 10 minutes", "ask"),
        ("why not open the lid?", "why_not"),
        ("why can't I just open it", "why_not"),
        ("what if I shut only the top", "what_if"),
        ("what now", "what_now"),
        ("ok what do i do", "what_now"),
        ("thanks!", "thanks"),
        ("gracias, that worked", "thanks"),
        ("hi", "greeting"),
        ("hello there", "greeting"),
        ("done", "done"),
        ("did 1 and 2", "done"),
        ("done, both shut", "done"),
        ("ok vents closed", "done"),
        ("burped it", "done"),
        ("can't", "cannot"),
        ("the vent is stuck", "cannot"),
        ("can't reach it", "cannot"),
        ("who won the game last night", "off_topic"),
        ("asdfgh jkl", "off_topic"),
        ("🐷🐷🐷", "off_topic"),
        ("what's 250 divided by 4", "off_topic"),
        ("ich habe hunger", "off_topic"),
        ("how much charcoal do i need", "ask"),
        ("dome 310", "tell"),
        ("no, I meant 250", "correction"),
    ],
)
def test_the_intent_is_found(listen, words, intent):
    assert intent in listen(words).intents


@pytest.mark.parametrize(
    ("words", "steps", "everything"),
    [
        ("did 1 and 2", (1, 2), False),
        ("step 2 done", (2,), False),
        ("i did the first one", (1,), False),
        ("done", (), False),
        ("all done", (), True),
        ("did 1-3", (1, 3), False),
    ],
)
def test_steps_reported_done(listen, words, steps, everything):
    heard = listen(words)
    assert heard.done_steps == steps and heard.all_done is everything


def test_what_is_imagined_is_kept_apart(listen):
    heard = listen("what if it was at 400 with both vents shut")
    assert heard.facts == {} and heard.supposed["dome_f"] == 400 and heard.supposed["top_vent"] == 0


def test_why_not_carries_its_argument(listen):
    heard = listen("why not just open the lid to cool it?")
    assert heard.argument == "open the lid to cool it" and heard.about == "open_to_cool"


@pytest.mark.parametrize(
    ("words", "topic"),
    [
        ("what vent settings for 275", "vent_setting"),
        ("how do i open it at 600", "open_safely"),
        ("what is burping", "why_burp"),
        ("how many chunks for ribs", "wood_needed"),
        ("how many starters", "starters"),
        ("can i reuse the charcoal", "reuse_charcoal"),
        ("when can i dump the ash", "ash_handling"),
        ("is it ok in the garage", "run_indoors"),
        ("how do i keep it warm til 7", "hold_food"),
        ("which vent should i use", "single_control"),
        ("how do i put it out", "put_out"),
        ("is my gauge off?", "gauge_check"),
        ("is it soaked yet", "heat_soak"),
        ("chicken breast is 150, can I eat it", "food_safe"),
        ("why is my brisket stuck", "meat_stall"),
        ("10 over. worth touching?", "leave_alone"),
    ],
)
def test_the_topic_of_a_question(listen, words, topic):
    assert listen(words).about == topic


class TestCookers:
    def test_a_number_names_one(self, listen):
        for words in (
            "number two's at 310",
            "cooker 2 is at 310",
            "the second one is at 310",
            "#2 is at 310",
        ):
            heard = listen(words)
            assert (heard.cooker, heard.facts["dome_f"]) == ("2", 310)

    def test_the_one_in_trouble_comes_first(self, listen):
        heard = listen("number two's at 310, the first one is out")
        assert heard.cooker == "1" and heard.facts == {"fire_out": True}
        assert heard.others == (("2", {"dome_f": 310.0}),)

    def test_names_already_going_are_known(self, listen):
        heard = listen("bertha is at 400, small one is fine at 225", cookers=("bertha",))
        assert heard.cooker == "bertha" and heard.facts["dome_f"] == 400

    def test_one_as_a_pronoun_names_none(self, listen):
        assert listen("first time using one of these").cooker is None
        assert listen("the bottom's the open one").cooker is None


@pytest.mark.parametrize("verb", ["is", "hits", "reaches", "gets to", "goes to", "climbs to"])
def test_a_supposed_reading_is_supposed_by_any_verb(listen, verb):
    heard = listen(f"what if it {verb} 400")
    assert heard.supposed["dome_f"] == 400 and heard.facts == {}
