"""Flames, carbon monoxide, burns, wear and winding down in plain words: what is done, warned of and asked."""

import re
from pathlib import Path

import pytest
import yaml
from holding import hold

from advisor.reply import Reply
from advisor.rulebook.schema import STANDINGS

DATA = Path(__file__).parent.parent / "data"
TALK = yaml.safe_load((DATA / "dangers_talk.yaml").read_text(encoding="utf-8"))
FAMILY = ("open-fire--", "fat-burning--", "fat-suspected--", "lighting-under-lid--", "fat-fire--", "blaze-wins--", "clothes-burn--", "gas-near--", "gas-fire--", "coals-loose--", "stand-unsafe--",
          "fat-pan-full--", "raw-touched--", "glass-in-food--", "frozen-inside--", "food-made-ill--",
           "food-lay-warm--", "food-unprobed--", "help-called--", "grease-fire-over--", "keep-clear--",
          "douse--", "extinguisher--", "smother-with--", "is-it-over--", "airing--", "fluid-on-fire--",
          "flare-up--", "kindling-flames--", "flashback--", "fire-loose--", "flames--", "flames-over--",
          "out-of-reach--", "lid-in-reach--", "fire-burns--", "vents-pinched--", "no-food-yet--",
          "sparks--", "extinguisher--", "water--", "water-thrown--", "monoxide--", "indoors--",
          "symptoms--", "felt-ill--", "burn--", "fresh-burn--", "children--", "children-near--",
          "too-near--", "scorching--", "ash-unsafe--", "cracked-through--", "crack--", "surface-damage--",
          "lid-unsafe--", "lid-unsafe-to-lift--", "reads-", "dome-ahead-of-grate--",
          "grate-ahead-of-dome--", "stem-touches-food--", "shutting-down--", "cold-through--", "holding--",
          "meat-stalls--", "unattended--", "covered--", "open-safely--", "open-to-cool--", "why-burp--",
          "put-out--", "ash--", "run-indoors--", "gauge-check--", "gasket-check--", "touch--",
          "hold-food--", "food-safe--", "cook-was-broken--", "meat-stall--", "timeline--",
          "leave-unattended--", "keep-distance--", "burn-first-aid--", "grease-fire-ahead--",
          "crack-worry--")
FIRST_OF_ALL = {"close_lid", "keep_lid_shut", "stand_clear", "get_people_out", "call_fire_service",
                "keep_people_away", "cool_burn"}
WATER = re.compile(r"(?<!no )(?<!no more )\b(hose|water|bucket)\b", re.IGNORECASE)
WATER_IS_RIGHT = {"cool_burn", "check_thermometer"}
TURNS = [(name, number) for name, turns in TALK.items() for number, _ in enumerate(turns)]


@pytest.fixture(scope="module")
def replies(rulebook) -> dict[str, list[Reply]]:
    return {name: hold(rulebook, (turn["say"] for turn in turns)) for name, turns in TALK.items()}


def fired(reply: Reply) -> set[str]:
    return {firing.rule for firing in reply.why}


def warned(reply: Reply) -> set[str]:
    return {caution.id for caution in reply.cautions}


@pytest.mark.parametrize(("name", "number"), TURNS)
def test_what_is_said_leads_to_what_must_be_done(replies, name, number):
    turn, reply = TALK[name][number], replies[name][number]
    assert set(turn["rules"]) - fired(reply) == set()
    assert set(turn.get("not", ())) & fired(reply) == set()
    if "acts" in turn:
        assert [step.act for step in reply.steps][:len(turn["acts"])] == turn["acts"]
    assert set(turn.get("warns", ())) - warned(reply) == set()
    if "asks" in turn:
        assert (reply.asks.fact if reply.asks else None) == turn["asks"]


def test_every_rule_of_the_families_is_reached_by_words(replies, rulebook):
    reached = {rule for held in replies.values() for reply in held for rule in fired(reply)}
    family = {rule.id for rule in rulebook.rules if rule.file.id.startswith(FAMILY)}
    assert len(family) > 180
    assert family - reached == set()


def test_an_emergency_asks_nothing_and_its_first_step_saves_people_or_takes_the_air(replies, rulebook):
    emergencies = [(reply, procedure) for held in replies.values() for reply in held if reply.steps
                   and (procedure := _first_procedure(reply, rulebook)).then.standing == "emergency"]
    assert len(emergencies) > 20
    for reply, _ in emergencies:
        assert reply.asks is None or not reply.understood
        assert reply.asks is None or reply.asks.fact != "dome_f"
        assert reply.steps[0].act in FIRST_OF_ALL
        assert any(caution.level == "danger" for caution in reply.cautions)


def _first_procedure(reply: Reply, rulebook):
    """The most urgent procedure that fired."""
    recover = [rulebook.by_id[firing.rule] for firing in reply.why if firing.rule.startswith("recover/")]
    return min(recover, key=lambda rule: STANDINGS.index(rule.then.standing))


def test_nobody_is_told_to_open_the_lid_while_it_burns_or_to_use_water_on_it(replies):
    for held in replies.values():
        for reply in held:
            burning = reply.situation.get("grease_fire") is True
            acts = {step.act for step in reply.steps}
            assert not (burning and {"open_lid_slowly", "burp_lid", "take_food_off", "add_fuel"} & acts)
            assert not any(WATER.search(step.says) for step in reply.steps if step.act not in WATER_IS_RIGHT)


def test_nobody_who_felt_ill_is_sent_back_under_the_roof(replies):
    outside = {"get_people_out", "call_fire_service", "keep_people_away", "stand_clear"}
    for reply in replies["dizzy in the shed"]:
        assert {step.act for step in reply.steps} <= outside


@pytest.mark.parametrize(("reads", "altitude", "words"), [
    (190, 0, "22 °F too low"), (235, 0, "23 °F too high"), (190, 5000, "13 °F too low"),
    (202, 5280, "The thermometer is right")])
def test_a_thermometers_error_is_told_with_its_amount_and_side(conversation, reads, altitude, words):
    """Water boils at 212 °F by the sea, 203 °F at 5000 ft: ICAO standard atmosphere, CoolProp 8."""
    reply = conversation.reading({"boiling_reads_f": reads, "altitude_ft": altitude}, 0.0)
    assert words in reply.text


@pytest.mark.parametrize("words", ["food's going on in 20", "food's going on in 20 minutes"])
def test_food_that_is_still_to_go_on_is_not_on(conversation, words):
    assert conversation.say(words, 0.0).situation["food_on"] is False


@pytest.mark.parametrize(("words", "figures"), [
    ("what do i put on a burn", ["20 minutes"]),
    ("how far from the house should it be", ["10 ft (3 m)", "3 ft (1 m)"]),
    ("chicken breast is 150 inside, can I eat it", ["165 °F"]),
    ("is it safe to eat", ["165 °F", "160 °F", "145 °F"]),
    ("how do I keep ribs warm for 2 hrs", ["140 °F"]),
    ("can i move it while its hot", ["140 °F", "infrared"]),
])
def test_published_figures_stand_in_the_answers(conversation, words, figures):
    """FoodSafety.gov chart; FSIS 140 °F hot holding; British Burn Association 20 min; IFC 308.1.4 10 ft; NFPA 3 ft;
    the limit of about 60 °C for 5 s used with ASTM C1055."""
    text = conversation.say(words, 0.0).text
    assert [figure for figure in figures if figure not in text] == []


def test_a_small_error_in_celsius_is_no_error(conversation):
    """96 °C is 205 °F, 7 °F under the boiling point by the sea: within what a dial can do (8 °F, judgement)."""
    reply = conversation.say("in boiling water it reads 96 c, we're on the coast", 0.0)
    assert "The thermometer is right" in reply.text


def test_the_figures_follow_a_cook_who_speaks_celsius(conversation):
    conversation.say("dome 120 C want 110", 0.0)
    text = conversation.say("chicken breast is 66 C inside, can I eat it", 1.0).text
    assert "74 °C" in text and "°F" not in text


def test_a_danger_stands_in_every_reply_while_it_lasts(conversation):
    conversation.say("its in the garage", 0.0)
    for words in ("dome 300 want 250", "top vent half open", "thanks"):
        assert "carbon-monoxide" in warned(conversation.say(words, 1.0))
    assert "carbon-monoxide" not in warned(conversation.say("moved it outside now", 2.0))


@pytest.mark.parametrize("danger", [
    {"wood_state": "treated"}, {"crack_kind": "through"}, {"water_thrown": True}, {"extinguisher_used": True},
    {"scorching": True}, {"grease_fire_over": True}, {"band_loose": True}])
@pytest.mark.parametrize("fire", [
    {"dome_f": 350, "target_f": 250}, {"dome_f": 255, "target_f": 250}, {"dome_f": 180, "target_f": 250},
    {"vents_moved_ago_min": 70}, {"dome_f": 180, "trend": "falling"}, {"fire_out": True},
    {"fire_out": True, "food_on": True}])
def test_a_fire_that_has_to_be_let_go_gets_no_air_back(advise, danger, fire):
    steps = advise(**danger, **fire, bottom_vent=0, top_vent=0).plan.steps
    assert not [step for step in steps if step.parameters.get("opening", 0) > 0]
    assert not {step.act for step in steps} & {"burp_lid", "add_fuel", "light", "add_wood"}
