"""What is asked, imagined, past or somebody else's states nothing; emergencies are heard all the same."""

import pytest


@pytest.mark.parametrize(
    "words",
    [
        "should i shut both vents",
        "can i open the lid",
        "is the fire out?",
        "is it windy?",
        "what if the fire goes out",
        "if i shut the top will it die",
        "my neighbour's is at 400",
        "my buddy runs his with the lid open",
        "last weekend it hit 700 and i had a grease fire",
        "will there be white smoke",
        "how do i avoid a flare up",
        "do i put the deflector in",
        "when it hits 300 should i shut it",
        "why should i wait 10 minutes",
        "next time i'll light it earlier",
        "last time the gasket leaked",
    ],
)
def test_nothing_is_stated(listen, words):
    assert listen(words).facts == {}


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        ("is this a grease fire? black smoke", {"grease_fire": True, "smoke": "black"}),
        ("now 180, do i open the vents", {"dome_f": 180}),
        (
            "vents have been shut half an hour can i open the lid",
            {"bottom_vent": 0, "top_vent": 0, "vents_moved_ago_min": 30},
        ),
        ("thick yellow smoke pouring out is this ok", {"smoke": "yellow", "smoke_amount": "heavy"}),
        ("my neighbour's is at 400, mine is at 300", {"dome_f": 300}),
        ("why is it stuck at 180", {"dome_f": 180, "trend": "steady"}),
    ],
)
def test_what_stands_beside_a_question_is_stated(listen, words, facts):
    heard = listen(words).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("words", "fact"),
    [
        ("GREASE FIRE", "grease_fire"),
        ("theres a fire in the drip pan", "grease_fire"),
        ("fat is burning in the tray", "grease_fire"),
        ("huge flames out the top", "flames"),
        ("it flared up when i opened it", "flames"),
        ("i feel dizzy", "co_symptoms"),
        ("my wife has a headache", "co_symptoms"),
        ("should i worry, i feel sick", "co_symptoms"),
        ("burnt my hand on it", "burnt_skin"),
        ("my kid got burned", "burnt_skin"),
        ("its in the garage with the door open", "indoors"),
        ("running it under the gazebo", "indoors"),
        ("we're in a tent", "indoors"),
        ("on our closed balcony", "indoors"),
    ],
)
def test_an_emergency_is_heard(listen, words, fact):
    assert listen(words).facts[fact] is True


@pytest.mark.parametrize(
    ("words", "fact"),
    [
        ("no flames", "flames"),
        ("flames are gone", "flames"),
        ("isn't windy", "windy"),
        ("not raining any more", "raining"),
        ("there aren't any flames", "flames"),
        ("the fire's going again", "fire_out"),
        ("fire isn't out", "fire_out"),
        ("food isn't on yet", "food_on"),
        ("no deflector in", "deflector_in"),
        ("lid's shut", "lid_open"),
        ("nobody is burnt", "burnt_skin"),
        ("no grease fire", "grease_fire"),
        ("gasket's fine", "gasket_leaks"),
        ("rain has stopped", "raining"),
        ("out in the open air", "indoors"),
        ("nobody is dizzy", "co_symptoms"),
    ],
)
def test_denial_makes_it_false(listen, words, fact):
    assert listen(words).facts[fact] is False


@pytest.mark.parametrize(
    ("words", "fact", "value"),
    [
        ("the lid is not open", "lid_open", False),
        ("no, the lid is open", "lid_open", True),
        ("no it went out", "fire_out", True),
        ("no more white smoke", "smoke", None),
    ],
)
def test_the_reach_of_no_and_not(listen, words, fact, value):
    assert listen(words).facts.get(fact) is value


def test_a_denied_colour_says_nothing(listen):
    assert "smoke" not in listen("smoke isn't white anymore").facts


def test_sickness_from_food_is_no_gas(listen):
    assert "co_symptoms" not in listen("he ate it half raw and now feels sick").facts


@pytest.mark.parametrize(
    "words",
    [
        "white pepper rub",
        "heavy bag",
        "thick cut bacon",
        "sick of this thing",
        "the 250 bus is late",
        "first time here",
    ],
)
def test_words_of_other_things_state_nothing_about_the_fire(listen, words):
    heard = listen(words).facts
    assert not set(heard) - {"food", "meat_kind", "bird", "intact"}
