"""Whole talks of newcomers that once went wrong: what the reply must hold, and what it must not."""

import pytest

from advisor.conversation import Conversation
from advisor.rulebook.loader import read_rulebook

RULEBOOK = read_rulebook()


@pytest.fixture
def talk():
    return Conversation(RULEBOOK)


def says(talk, *turns):
    """The last reply to turns (words, minute)."""
    for words, minute in turns:
        reply = talk.say(words, minute, 720 + minute)
    return reply


def acts(reply):
    return [step.act for step in reply.steps]


def test_flames_of_a_fire_lit_within_half_an_hour_are_no_flare_up(talk):
    reply = says(talk, ("lit it 10 min ago, flames in there, is that normal", 0), ("still flames", 14))
    assert acts(reply)[0] == "close_lid" and "set_vent" not in acts(reply)


def test_a_fire_told_to_be_just_lit_grows_older(talk):
    reply = says(talk, ("just lit it, flames everywhere is that ok", 0), ("flames still", 18))
    assert reply.situation["lit_ago_min"] == 18
    assert acts(reply)[0] == "close_lid"


def test_a_dome_that_climbs_shows_that_no_vent_was_shut(talk):
    reply = says(talk, ("big flames inside, dome 400 want 250", 0), ("now 500 and climbing", 6))
    assert RULEBOOK.catalogue.phrases["presumed_done"] not in reply.text
    assert reply.situation.get("top_vent") is None and "call_fire_service" not in acts(reply)


def test_a_first_reading_is_the_reason_that_is_named(talk):
    reply = says(talk, ("lit 10 min ago, flames, is that ok", 0), ("now 500 and climbing", 6))
    assert "minutes have passed" not in reply.text


@pytest.mark.parametrize("words", ["can i open the lid to cool it", "is it ok to open the lid", "can i have a look inside"])
def test_an_answer_about_the_lid_stands_with_the_burp(talk, words):
    reply = says(talk, ("dome 400 want 250", 0), (words, 1))
    assert "burp" in reply.answers[0].says and "lift it slowly. Under" not in reply.text


def test_who_knows_better_is_named_once(talk):
    reply = says(talk, ("treated wood in the fire and i have a headache", 0))
    named = next(line for line in reply.text.splitlines() if line.startswith(RULEBOOK.catalogue.phrases["above_us"]))
    assert named.count("the fire service") == 1


def test_whether_it_will_be_done_in_time_has_an_answer(talk):
    reply = says(talk, ("chicken thighs on, dome 350, want 350", 0), ("will they be done in time", 5))
    assert "half hour" in reply.answers[0].says


def test_no_smoke_is_answered_by_what_the_dome_does(talk):
    reply = says(talk, ("dome 250, no smoke at all, is that bad", 0))
    assert "alive and clean" in reply.text


def test_an_old_reading_is_asked_for_again(talk):
    reply = says(talk, ("last time I looked was 11, it was 245", 0))
    assert reply.text.startswith(RULEBOOK.catalogue.phrases["old_news"]) and reply.asks.fact == "dome_f"


def test_food_that_rests_is_no_doubted_gauge(talk):
    reply = says(talk, ("brisket done, its off, resting", 0))
    assert "check_thermometer" not in acts(reply)


def test_wood_taken_out_is_heard_after_wood(talk):
    reply = says(talk, ("white smoke", 0), ("i put 4 chunks in", 1), ("took some out, grey now", 6))
    assert reply.heard == {"wood_taken_out": True, "smoke": "grey"}


def test_late_flames_under_a_shut_lid_ask_for_the_dome(talk):
    reply = says(talk, ("lit 25 min ago, lid is shut, flames at the top vent", 0), ("what do i do", 2))
    assert acts(reply) == ["keep_lid_shut", "read_dome"]


def test_the_neediest_cooker_comes_first(talk):
    reply = says(talk, ("left one is 300, right one is 420", 0), ("all should be 300", 1), ("left 300", 2),
                 ("which one first", 3))
    assert reply.situation["cooker"] == "right" and "first" in reply.text.splitlines()[0]


def test_a_fire_that_climbs_is_not_asked_whether_it_lives(talk):
    reply = says(talk, ("dome 285 and climbing, want 275, lit an hour ago", 0), ("done", 2), ("ok", 3))
    assert reply.asks is None or reply.asks.fact != "fire_out"


@pytest.mark.parametrize("told", ["dome 250, want 250", "dome 258, want 250", "dome 245, want 250, thin blue smoke"])
def test_whether_food_may_go_on_has_an_answer(talk, told):
    reply = says(talk, (told, 0), ("can i put the ribs on", 1))
    assert reply.answers


def test_what_if_water_is_answered_as_well_as_played(talk):
    reply = says(talk, ("thin blue smoke", 0), ("one of them asked what happens if you throw water in", 1))
    assert "cracks" in reply.text


def test_sparks_are_over_after_a_while(talk):
    reply = says(talk, ("i stirred it, sparks flew up, want 275, dome 270", 0), ("275", 30))
    assert not any(caution.level == "danger" for caution in reply.cautions)


ASLEEP = (("help i fell asleep, brisket was on all night", 0), ("the dome says 140", 1), ("fire is dead i think", 2),
          ("the probe says 128 in the flat", 3), ("no clue when it died, i went to bed at 11 and its 7 now", 5))


def test_warm_food_over_a_fire_long_dead_stays_in_danger(talk):
    reply = says(talk, *ASLEEP)
    assert any(caution.level == "danger" and "eats" in caution.says for caution in reply.cautions)
    assert "light" not in acts(reply)


def test_food_thrown_out_is_no_fire_lit_again(talk):
    reply = says(talk, *ASLEEP, ("ok threw it out", 10))
    assert reply.situation["food_on"] is False and "lit_ago_min" not in reply.situation
    assert reply.situation.get("stage") != "shutting_down"


@pytest.mark.parametrize("turns", [
    [("dome 400 burgers on", 0), ("burgers 155 inside ok?", 5)],
    [("wrapped the pork, its in the cooler, probe says 138", 0), ("is that bad", 1)],
])
def test_a_bare_worry_about_meat_is_about_its_safety(talk, turns):
    reply = says(talk, *turns)
    assert reply.answers and "top vent" not in reply.answers[0].says


def test_meat_that_climbs_again_has_stalled_no_more(talk):
    reply = says(talk, ("225, want 225, meat stuck at 157 for 3 hrs", 0), ("meat 170", 60))
    assert "meat_trend" not in reply.situation or reply.situation["meat_trend"] != "steady"


def test_wrapped_meat_is_not_told_to_be_wrapped(talk):
    reply = says(talk, ("225, want 225, meat stuck at 157 for 3 hrs", 0), ("wrapped in foil", 5))
    assert "wrap it" not in reply.text


def test_done_for_the_day_does_no_step(talk):
    reply = says(talk, ("dome 250 want 275 steady, brisket on", 0), ("done, shut them all down", 5))
    assert reply.situation["stage"] == "shutting_down" and "add_fuel" not in acts(reply)


def test_no_answer_shows_a_hole(talk):
    assert "{" not in says(talk, ("this is my first cook", 0)).text


def test_soft_pork_is_done(talk):
    reply = says(talk, ("pork shoulder 195 inside, feels soft, dome 250", 0), ("is it done", 1))
    assert len(reply.answers) == 1 and reply.answers[0].says.startswith("Yes")


def test_food_in_the_smoke_of_plastic_is_never_called_safe(talk):
    reply = says(talk, ("chicken is on, the probe cable melted", 0), ("took the chicken off", 2), ("throw it away?", 3))
    assert len(reply.answers) == 1 and "165" not in reply.text and "thrown away" in reply.answers[0].says


def test_a_burning_tray_is_heard_to_its_end(talk):
    reply = says(talk, ("fire in the grill is massive, help", 0), ("its the fat in the tray, burning", 1),
                 ("i put the lid down and closed everything", 2), ("still burning i can see it through the top", 4))
    assert reply.situation["grease_fire"] is True and "light" not in acts(reply)
    reply = says(talk, ("out", 8))
    assert reply.situation["grease_fire"] is False and "light" not in acts(reply)


def test_the_grate_serves_where_no_dome_is_known(talk):
    reply = says(talk, ("lid thermometer is broken, 290 at the grate, want 250", 0))
    assert reply.situation["over_f"] == 40


def test_a_burnt_pizza_is_not_probed(talk):
    reply = says(talk, ("pizza on, dome 570, want 570", 0), ("bottom burnt top raw", 3))
    assert "probe_food" not in acts(reply) and "stone" in reply.text


def test_food_put_on_makes_the_dip(talk):
    reply = says(talk, ("225, want 225, walls hot, lit 2 hours ago", 0), ("put the meat on", 1), ("200!!", 5))
    assert "set_vent" not in acts(reply)


def test_shutting_down_puts_no_food_back(talk):
    reply = says(talk, ("chicken on, burnt outside raw inside, dome 500 want 350", 0), ("closing up for tonight", 5))
    assert "put_food_on" not in acts(reply)


def test_a_young_fire_that_runs_away_is_not_left_wide_open(talk):
    reply = says(talk, ("lit 10 minutes ago, lid shut, dome 200", 0), ("420!", 10))
    assert [step.parameters["opening"] for step in reply.steps if step.act == "set_vent"] == [0.125]


def test_a_vent_opened_somehow_is_not_taken_for_shut(talk):
    reply = says(talk, ("dome 240, want 300, bottom an inch, top shut", 0), ("opened the top", 1))
    assert "top_vent" not in reply.situation and reply.situation["vents_moved_ago_min"] == 0
    assert RULEBOOK.catalogue.phrases["off_topic"] not in reply.text


def test_nobody_amid_a_cook_is_told_off_for_talking_of_something_else(talk):
    reply = says(talk, ("dome 250, want 250", 0), ("its taking forever", 5))
    assert not reply.understood and RULEBOOK.catalogue.phrases["not_used"] in reply.text


def test_what_was_asked_already_is_not_asked_again(talk):
    first = says(talk, ("dome 350, want 250", 0))
    again = says(talk, ("i told you already", 1))
    assert again.asks is None or again.asks.fact != first.asks.fact


def test_a_share_is_not_said_as_an_opening(talk):
    reply = says(talk, ("dome 190 want 225, been on 5 hours", 0), ("charcoal nearly gone", 5))
    assert "eighth open" not in reply.text.splitlines()[0] and "how full the basket is" in reply.text


def test_who_ate_it_raw_is_sent_to_a_doctor(talk):
    reply = says(talk, ("chicken on, dome 350", 0), ("my sister ate some of it half raw and now feels sick", 5))
    assert "doctor" in reply.answers[0].says


@pytest.mark.parametrize("words", ["how do i bring it down", "how do i get it hotter"])
def test_another_heat_from_the_target_has_an_answer(talk, words):
    reply = says(talk, ("dome 250, want 250", 0), (words, 1))
    assert "new figure" in reply.answers[0].says
