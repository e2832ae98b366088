"""Units: JSON in °F, minutes, inches, kilograms and fractions; words in the units the person speaks."""

import re

import pytest

FOREIGN = {"C": re.compile(r"°F|\bdegrees F"), "F": re.compile(r"°C"), "cm": re.compile(r"\binch(es)?\b"),
           "in": re.compile(r"\bcm\b")}


@pytest.mark.parametrize(("words", "fact", "value"), [
    ("dome at 180 C", "dome_f", 356), ("the dome reads 250 F", "dome_f", 250), ("180 celsius on the dome", "dome_f", 356),
    ("bottom vent 1 inch open", "bottom_vent_in", 1), ("bottom vent open 2.5 cm", "bottom_vent_in", 0.984),
    ("bottom vent open 25 mm", "bottom_vent_in", 0.984), ("top vent a quarter open", "top_vent", 0.25),
    ("lit it an hour ago", "lit_ago_min", 60), ("lit it 1h30 ago", "lit_ago_min", 90),
    ("10 lb of brisket", "food_kg", 4.536), ("a 3 kg shoulder", "food_kg", 3), ("basket is half full", "fuel_level", 0.5),
    ("boiling water reads 200 F", "boiling_reads_f", 200), ("it is 5 C outside", "ambient_f", 41),
])
def test_figures_in_json_have_the_units_of_the_contract(program, words, fact, value):
    assert program.say(words, 0)["heard"][fact] == pytest.approx(value, abs=0.01)


def test_a_difference_in_celsius_is_a_difference(program):
    assert program.say("it is 50 C over", 0)["heard"]["over_f"] == pytest.approx(90)


CELSIUS_TALK = ["dome is at 180 C, i want 110 C", "why", "why not burp it", "what if it is still rising", "thanks",
                "done", "now 160", "what's the capital of peru", "still 160", "it is 112 now", "no idea"]
FAHRENHEIT_TALK = ["dome is at 350 F, i want 230 F", "why", "what if it is still rising", "done", "now 300", "it is 232"]


@pytest.mark.parametrize(("talk", "unit"), [(CELSIUS_TALK, "C"), (FAHRENHEIT_TALK, "F")])
def test_every_text_keeps_to_the_degrees_of_the_person(program, talk, unit):
    for n, words in enumerate(talk):
        text = program.say(words, 6 * n)["text"]
        assert not FOREIGN[unit].search(text), text


@pytest.mark.parametrize(("first", "unit"), [("dome 180 C, want 110 C, bottom vent 5 cm open", "cm"),
                                             ("dome 350, want 230, bottom vent 2 inches open", "in")])
def test_every_text_keeps_to_the_lengths_of_the_person(program, first, unit):
    for n, words in enumerate([first, "done", "why", "thanks", "still very hot"]):
        text = program.say(words, 6 * n)["text"]
        assert not FOREIGN[unit].search(text), text


def test_findings_steps_cautions_and_questions_keep_to_the_units_too(program):
    reply = program.say("dome 180 C, want 110 C, bottom vent 5 cm open", 0)
    said = [part["says"] for key in ("findings", "steps", "cautions") for part in reply[key]] + [reply["asks"]["says"]]
    assert [words for words in said if FOREIGN["C"].search(words) or FOREIGN["cm"].search(words)] == []


def test_units_once_spoken_are_kept(program):
    program.say("want 110 C", 0)
    assert program.say("dome 150", 1)["situation"]["dome_f"] == pytest.approx(302)


# ---- vents: inches and fractions agree by the profile's travel -----------------------------------------------------


@pytest.mark.parametrize(("travel", "inches", "fraction"), [(4, 1, 0.25), (4, 4, 1), (5, 1, 0.2), (3, 1.5, 0.5)])
def test_inches_and_fraction_agree_by_the_travel(program_with, travel, inches, fraction):
    reply = program_with(bottom_travel_in=travel).send(reading={"bottom_vent_in": inches}, at_min=0)
    assert reply["situation"]["bottom_vent"] == pytest.approx(fraction)
    reply = program_with(bottom_travel_in=travel).send(reading={"bottom_vent": fraction}, at_min=0)
    assert reply["situation"]["bottom_vent_in"] == pytest.approx(inches)


def test_the_newer_of_inches_and_fraction_counts(program):
    program.send(reading={"bottom_vent_in": 2}, at_min=0)
    assert program.send(reading={"bottom_vent": 0.25}, at_min=1)["situation"]["bottom_vent_in"] == 1
    assert program.send(reading={"bottom_vent_in": 2}, at_min=2)["situation"]["bottom_vent"] == 0.5


@pytest.mark.parametrize("travel", [4, 5, 8])
def test_a_step_told_in_inches_carries_them(program_with, travel):
    reply = program_with(bottom_travel_in=travel).say("dome 400, want 250", 0)
    told = [step for step in reply["steps"] if step["act"] == "set_vent" and "inch" in step["says"]]
    assert [step["opening_in"] for step in told] == [1]
    assert [step["opening"] for step in told] == [pytest.approx(1 / travel)]


def test_a_step_not_told_in_inches_carries_none(program):
    reply = program.say("dome 400, want 250", 0)
    assert not any("opening_in" in step for step in reply["steps"] if "inch" not in step["says"])
