"""The commands as processes of their own: ask, pipe, schema; exit status; one sentence for what is wrong."""

import json
import os
import subprocess
import sys

import pytest

TITLE = "I'm 100 degrees over, what now?"


def drafthand(*words: str, stdin: bytes = b"") -> tuple[int, str, str]:
    """(status, output, error output) of one call."""
    done = subprocess.run([sys.executable, "-m", "advisor", *words], input=stdin, capture_output=True, timeout=60,
                          env={**os.environ, "NO_COLOR": "1"}, check=False)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.fixture(scope="module")
def schema() -> dict:
    status, output, _ = drafthand("schema")
    assert status == 0
    return json.loads(output)


@pytest.mark.parametrize("words", [("ask", TITLE, "--json"), ("ask", "--json", TITLE)])
def test_ask_prints_one_reply(words):
    status, output, errors = drafthand(*words)
    assert (status, errors, output.count("\n")) == (0, "", 1)
    assert json.loads(output)["heard"] == {"over_f": 100}


def test_ask_without_json_prints_the_text():
    status, output, _ = drafthand("ask", TITLE)
    assert status == 0 and "bottom vent" in output and "{" not in output


@pytest.mark.parametrize("words", ["", "🔥", "x" * 10_000, "qué hago, está demasiado caliente"])
def test_ask_never_fails_on_words(words):
    status, output, errors = drafthand("ask", words, "--json")
    assert (status, errors) == (0, "") and json.loads(output)["understood"] is False


def test_a_profile_sets_the_travel(tmp_path):
    profile = tmp_path / "cooker.yaml"
    profile.write_text("bottom_travel_in: 5\n")
    _, output, _ = drafthand("ask", "bottom vent 1 inch open", "--json", "--cooker", str(profile))
    assert json.loads(output)["situation"]["bottom_vent"] == 0.2


def test_a_whole_conversation_through_the_pipe():
    lines = [{"say": "dome 400, want 250", "at_min": 0}, {"done": [1, 2], "at_min": 1}, {"say": "why", "at_min": 1},
             {"cooker": "two", "at_min": 2}, {"reading": {"dome_f": 250}, "at_min": 3}, {"oops": 1},
             {"cooker": "2", "at_min": 4}, {"reset": True}, {"say": "hello"}]
    status, output, errors = drafthand("pipe", stdin="\n".join(map(json.dumps, lines)).encode())
    answers = [json.loads(line) for line in output.splitlines()]
    assert (status, errors, len(answers)) == (0, "", len(lines))
    assert [n for n, answer in enumerate(answers) if "error" in answer] == [5]
    assert answers[1]["situation"]["choked"] is True
    assert answers[6]["situation"]["dome_f"] == 250
    assert answers[7]["situation"] == {} and answers[8]["situation"] == {}


@pytest.mark.parametrize("words", [("ask",), ("aks", "x"), ("ask", "x", "--jsn"), ("pipe", "--nonsense"), ("schema", "x")])
def test_words_of_a_call_that_are_off_give_two(words):
    status, output, errors = drafthand(*words)
    assert (status, output) == (2, "")
    assert errors.count("\n") == 1 and "Traceback" not in errors


@pytest.mark.parametrize("text", [None, "bottom_travel_in: wide\n", "x: [", "\x00"])
def test_anything_else_gives_one(tmp_path, text):
    profile = tmp_path / "cooker.yaml"
    if text is not None:
        profile.write_text(text)
    status, output, errors = drafthand("ask", "dome 300", "--cooker", str(profile))
    assert (status, output) == (1, "")
    assert errors.count("\n") == 1 and "Traceback" not in errors


# ---- the schema and what is really sent ----------------------------------------------------------------------------


def test_the_schema_holds_situation_reply_and_lines(schema):
    assert {"situation", "reply", "line"} <= set(schema["properties"])


def test_every_key_of_a_real_reply_stands_in_the_schema(schema, program):
    reply = program.talk("dome 400, want 250, white smoke, number two has a grease fire", "what if it hits 500")
    definitions = schema["$defs"]
    assert set(reply) == set(definitions["Reply"]["properties"])
    assert set(reply["situation"]) <= set(definitions["Situation"]["properties"])
    for key, model in (("steps", "StepSaid"), ("cautions", "CautionSaid"), ("findings", "FindingSaid"), ("why", "FiringSaid")):
        assert reply[key]
        assert all(set(part) <= set(definitions[model]["properties"]) for part in reply[key])


CONTRACT_ACTS = ["set_vent", "burp_lid", "keep_lid_shut", "open_lid_slowly", "close_lid", "wait", "read_dome", "change_nothing", "add_fuel", "add_wood", "remove_wood", "clear_ash", "stir_fuel", "light", "take_food_off", "put_food_on", "probe_food", "discard_food", "check_thermometer", "check_gasket", "shelter_from_wind", "stand_clear", "keep_people_away", "get_people_out", "call_fire_service", "cool_burn", "move_outdoors", "shut_down", "mend"]

CONTRACT_KEYS = ["dome_f", "grate_f", "meat_f", "target_f", "meat_target_f", "over_f", "trend", "rate_f_per_min", "bottom_vent", "top_vent", "bottom_vent_in", "top_vent_in", "lit_ago_min", "vents_moved_ago_min", "at_target_for_min", "stage", "heat_soaked", "deflector_in", "lid_open", "flames", "grease_fire", "fire_out", "gasket_leaks", "indoors", "windy", "raining", "food_on", "choked", "smoke", "smoke_amount", "smell", "wood_added_ago_min", "wood_share", "fuel_level", "ash", "food", "food_kg", "serve_in_min", "fire_died_ago_min", "meat_was_f", "ambient_f", "vents_moved_every_min", "meat_trend", "charcoal_kg", "altitude_ft", "boiling_reads_f", "ice_reads_f", "out_of_fridge_min", "resting", "co_symptoms", "cooker", "meat_kind", "intact", "danger_zone_for_min", "peak_meat_f", "meat_start_f", "food_on_for_min", "meat_held_for_min", "bird", "fat_share", "leftover", "cooling_for_min"]


def test_the_acts_are_those_of_the_contract(schema):
    assert set(schema["$defs"]["StepSaid"]["properties"]["act"]["enum"]) == set(CONTRACT_ACTS)


def test_every_key_of_the_contract_may_be_told(schema):
    assert set(CONTRACT_KEYS) <= set(schema["$defs"]["Situation"]["properties"])


CHOICES = {"trend": "rising falling steady swinging", "meat_trend": "rising falling steady",
           "stage": "laying lighting warming soaking cooking holding shutting_down",
           "smoke": "none thin_blue white grey yellow black", "smoke_amount": "none light heavy",
           "smell": "clean acrid greasy chemical", "ash": "light heavy", "bird": "chicken turkey other",
           "meat_kind": "beef pork lamb poultry fish other"}


@pytest.mark.parametrize("key", CHOICES)
def test_every_choice_of_the_contract_is_taken(program, key):
    for value in CHOICES[key].split():
        assert program.send(reading={key: value}, at_min=0)["situation"][key] == value
