"""Messages that were once misheard: what has to be heard, and what must not be."""

import pytest

from advisor.language.heard import Context
from advisor.language.understanding import hear


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        (
            "target was two and a quarter hundred, now three and a half hundred",
            {"target_f": 225, "dome_f": 350},
        ),
        ("i want it to come down from 315 to 240", {"dome_f": 315, "target_f": 240}),
        # from the talks of an independent simulator
        ("showed 182 in boiling water, dome 255, target 250", {"boiling_reads_f": 182, "dome_f": 255, "target_f": 250}),
        ("dome at 255, target 250. it showed 182 in boiling water", {"boiling_reads_f": 182, "dome_f": 255, "target_f": 250}),
        ("the gauge showed 182 in boiling water and the dome says 255", {"boiling_reads_f": 182, "dome_f": 255}),
        ("reads 35 in ice water, dome 240", {"ice_reads_f": 35, "dome_f": 240}),
        ("it still glows", {"fire_out": False}),
        ("i see a glow", {"fire_out": False}),
        ("a bit hot, maybe 10 degrees", {"over_f": 10}),
        ("a bit hot, 290", {"dome_f": 290}),
        ("too hot with 40 degrees celsius", {"over_f": 72}),
        ("set fire to it at 1:10, now half one", {"lit_ago_min": 20}),
        ("fire finished before 40 min", {"fire_out": True, "fire_died_ago_min": 40}),
        ("9lb shoulder, quarter past one, eating half six", {"serve_in_min": 315}),
        ("dinner in 90, pit 350", {"serve_in_min": 90, "dome_f": 350}),
        ("all shut since 40 minutes", {"bottom_vent": 0, "top_vent": 0, "vents_moved_ago_min": 40}),
        ("I shut the top off completely", {"top_vent": 0}),
        ("the chicken reached 150 and I'd like 165", {"meat_f": 150, "meat_target_f": 165}),
        ("howling out here, 210 when I need 240", {"dome_f": 210, "target_f": 240}),
        ("not pork, lamb", {"food": "lamb", "meat_kind": "lamb"}),
        ("boiling water reads 98 C", {"boiling_reads_f": 208.4}),
        ("threw the chicken away", {"food": "chicken", "food_on": False}),
        ("the grease fire on number two is out", {"grease_fire": False}),
        ("thirty five over the mark", {"over_f": 35}),
        ("top vent 1/4, lower 1/2", {"top_vent": 0.25, "bottom_vent": 0.5}),
        ("charcoal is nearly finished", {"fuel_level": 0.1}),
        ("must be done by 6pm, its 2pm", {"serve_in_min": 240}),
        ("the fire died with the meat at 155, it's now 133", {"meat_was_f": 155, "meat_f": 133}),
        ("the dial hasn't budged for an hour", {"trend": "steady"}),
        ("charcoal caught about 20 min ago", {"lit_ago_min": 20}),
        ("stall at 155", {"meat_f": 155}),
        ("turkey 5.5 kg, 165 target", {"meat_target_f": 165}),
        ("it goes up, it goes down", {"trend": "swinging"}),
        ("fire died around three, it's four thirty", {"fire_out": True, "fire_died_ago_min": 90}),
    ],
)
def test_it_is_heard(listen, words, facts):
    heard = listen(words).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        ("in boiling water it shows 97 C, should be 100", {"target_f", "dome_f"}),
        ("gauge reads 10 high in boiling water", {"boiling_reads_f"}),
        ("why does mine swing when my brother's just stays on 120 C", {"dome_f"}),
        ("dips 50 every time I peek", {"dome_f"}),
        ("picked up my first ceramic cooker yesterday", {"cooker"}),
        ("swings from 220 to 280 every ten minutes", {"vents_moved_every_min"}),
        ("rain's stopped now", {"trend"}),
        ("the top vent won't move", {"trend"}),
        ("not moved the vents since 4, it's 5 now", {"trend"}),
        ("fire on for half an hour", {"food_on_for_min"}),
        ("pork won't shift, 158 for two hours", {"at_target_for_min"}),
        ("forget the chicken, it's ribs", {"bird"}),
        ("choking on this dirty smoke", {"choked"}),
        ("not inside, its out on the patio", {"fire_out"}),
        ("thermometer's dead on", {"fire_out"}),
        ("party starts at 7 and it's now 4", {"lit_ago_min"}),
        ("outdoors on gravel", {"charcoal_state"}),
        ("keeps dropping even with vents open", {"burn_pattern"}),
        ("ribs go on in an hour", {"food_on_for_min"}),
        ("all open questions", {"bottom_vent", "top_vent"}),
        ("no I haven't moved anything", {"trend"}),
        ("the oven is at 400", {"dome_f"}),
        ("rain is coming down on the dome", {"trend"}),
        ("wood: a tenth of the charcoal", {"fuel_level"}),
        ("charcoal is nearly finished", {"stage"}),
        ("recipe says 275 for 3 hours", {"at_target_for_min"}),
        ("150 gram of beech for a trout", {"food_kg"}),
        ("dont fancy a fireball", {"flames"}),
        ("mixtape's fire, 180 bpm", {"dome_f"}),
    ],
)
def test_it_is_not_heard(listen, words, facts):
    heard = listen(words)
    assert not facts & heard.facts.keys()
    assert heard.cooker is None


def test_a_correction_is_no_answer(listen):
    heard = listen("no I meant 250 not 350", asked="top_vent", facts={"dome_f": 350.0})
    assert heard.facts == {"dome_f": 250}


def test_sides_name_two_cookers(listen):
    heard = listen("left is at 350 want 250, right is at 240 want 250")
    assert heard.cooker == "left" and heard.facts == {"dome_f": 350, "target_f": 250}
    assert heard.others == (("right", {"dome_f": 240, "target_f": 250}),)


def test_ordinals_before_their_figures_name_two_cookers(listen):
    heard = listen("second cooker 300 F, first 225 F")
    assert heard.cooker == "2" and heard.others == (("1", {"dome_f": 225}),)


def test_a_fat_fire_that_is_out_takes_its_flames_along(listen):
    heard = listen("the fat fire is out", facts={"grease_fire": True, "flames": True})
    assert heard.facts["grease_fire"] is False and heard.facts["flames"] is False


def test_what_if_the_grease_catches_is_supposed(listen):
    assert listen("what if the grease catches fire").supposed["grease_fire"] is True


@pytest.mark.parametrize(
    ("words", "before", "facts"),
    [
        ("its cold now", {"fire_out": True}, {"fire_out": True}),
        ("hand is fine now", {"burnt_skin": True}, {"burnt_skin": False}),
    ],
)
def test_short_news_of_a_fact_that_stands(listen, words, before, facts):
    assert listen(words, facts=before).facts == facts


@pytest.mark.parametrize("words", ["no, it still glows", "no it's alive", "no, the coals are still glowing", "yes there's a glow"])
def test_a_glow_is_a_fire_that_lives_whatever_stands_before_it(rulebook, words):
    heard = hear(words, rulebook.vocabulary, Context(asked="fire_out"))
    assert heard.facts["fire_out"] is False


@pytest.mark.parametrize("words", ["shut it all down 40 min ago as it was too hot, now it falls and falls, want 250",
                                   "closed everything up half an hour ago, now 190, want 250"])
def test_who_shut_the_vents_and_wants_a_heat_is_not_done_for_the_day(rulebook, words):
    heard = hear(words, rulebook.vocabulary).facts
    assert "stage" not in heard and heard["target_f"] == 250


@pytest.mark.parametrize("words", ["shut everything down for the night", "shutting it down, both vents shut, target was 250"])
def test_who_is_done_for_the_day_is_still_heard(rulebook, words):
    assert hear(words, rulebook.vocabulary).facts["stage"] == "shutting_down"
