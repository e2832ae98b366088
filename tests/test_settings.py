"""The settings file: read, refused with file and line, explained, and what it changes in a conversation."""

import pytest
import yaml

from advisor.conversation import Conversation
from advisor.errors import DrafthandError, ProfileError
from advisor.settings import Settings, commented_file, explained, read_settings, write_commented
from advisor.units import SpokenUnits, UnitStyle


def read(folder, text):
    path = folder / "settings.yaml"
    path.write_text(text)
    return read_settings(path)


def test_without_a_file_everything_is_as_usual(tmp_path):
    assert read_settings(tmp_path / "none.yaml") == Settings()


@pytest.mark.parametrize(("text", "key", "value"), [
    ("temperature: celsius", "temperature", "celsius"), ("bell: no", "bell", False), ("contrast: high", "contrast", "high"),
    ("remind_again_min: 0", "remind_again_min", 0.0), ("screen_reader: yes", "screen_reader", True),
    ("logbook: /tmp/book", "logbook", "/tmp/book"), ("altitude_ft: 5000", "altitude_ft", 5000.0), ("", "figures", "us"),
    ("place: stand", "place", "stand"),
])
def test_every_key_can_be_set(tmp_path, text, key, value):
    assert getattr(read(tmp_path, text), key) == value


@pytest.mark.parametrize(("text", "says"), [
    ("bell: no\ntemprature: celsius\n", "settings.yaml:2: there is no key 'temprature'; did you mean temperature?"),
    ("# mine\ntemperature: celcius\n", "settings.yaml:2: temperature is 'celcius'"),
    ("remind_again_min: soon\n", "settings.yaml:1: remind_again_min"),
    ("altitude_ft: 90000\n", "settings.yaml:1: altitude_ft"),
    ("bell: [", "settings.yaml:"), ("- a list", "settings.yaml"),
])
def test_what_cannot_be_used_is_refused_with_file_and_line(tmp_path, text, says):
    with pytest.raises(ProfileError) as refused:
        read(tmp_path, text)
    assert says in str(refused.value) and "\n" not in str(refused.value)


def test_every_key_is_explained():
    rows = explained(Settings())
    assert [key for key, _, _ in rows] == list(Settings.model_fields)
    assert all(len(says) > 20 for _, _, says in rows)
    assert ("bell", "yes") in [(key, value) for key, value, _ in rows]


def test_the_file_that_is_written_sets_nothing_and_can_be_uncommented(tmp_path):
    assert read(tmp_path, commented_file()) == Settings()
    lines = [line.removeprefix("# ") for line in commented_file().splitlines()
             if line.removeprefix("# ").partition(":")[0] in Settings.model_fields]
    assert len(lines) == len(Settings.model_fields)
    assert Settings.model_validate(yaml.safe_load("\n".join(lines))) == Settings()


def test_a_file_that_stands_already_is_left_alone(tmp_path):
    path = tmp_path / "folder" / "settings.yaml"
    write_commented(path)
    path.write_text("bell: no\n")
    with pytest.raises(DrafthandError, match="is there already"):
        write_commented(path)
    assert path.read_text() == "bell: no\n"


def test_laid_down_units_go_before_spoken_ones():
    laid_down, spoken = SpokenUnits("C", None), UnitStyle("F", "in", "lb")
    assert laid_down.said(spoken) == UnitStyle("C", "in", "lb")
    assert laid_down.heard(None) == UnitStyle("C", "in", "lb")
    assert SpokenUnits(None, "cm").heard(None) is None
    assert SpokenUnits(None, "cm").said(None).length == "cm"


def test_celsius_laid_down_is_heard_and_answered(rulebook):
    talk = Conversation(rulebook, spoken=Settings(temperature="celsius").units)
    reply = talk.say("the dome reads 130, I want 110", 0)
    assert (reply.heard["dome_f"], reply.heard["target_f"]) == (266, 230)
    assert "°C" in reply.text and "°F" not in reply.text
    assert "°C" in talk.say("dome 300 F", 5).text


def test_fahrenheit_laid_down_answers_a_celsius_speaker(rulebook):
    talk = Conversation(rulebook, spoken=Settings(temperature="fahrenheit").units)
    reply = talk.say("the dome reads 130 C, I want 110 C", 0)
    assert reply.heard["dome_f"] == 266 and "°C" not in reply.text


def test_centimetres_laid_down_measure_the_vents(rulebook):
    talk = Conversation(rulebook, spoken=Settings(length="centimetres").units)
    text = talk.say("I'm 100 over, want 250", 0).text
    assert " cm" in text and "inch" not in text
