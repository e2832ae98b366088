"""Values in words, in the units the person speaks."""

import pytest

from advisor.units import UnitStyle, c_to_f, difference_c_to_f, f_to_c
from advisor.wording import Wording, minutes, opening, opening_from


@pytest.fixture
def metric(rulebook):
    return Wording(rulebook.vocabulary, UnitStyle("C", "cm", "kg"))


@pytest.fixture
def imperial(rulebook):
    return Wording(rulebook.vocabulary)


def test_a_difference_has_no_32_in_it(metric, imperial):
    assert metric.say("over_f", 180.0) == "100 °C"
    assert imperial.say("over_f", 180.0) == "180 °F"
    assert difference_c_to_f(5) == 9


def test_a_temperature_has(metric):
    assert metric.say("target_f", 230.0) == "110 °C"
    assert c_to_f(110) == 230 and f_to_c(212) == 100


def test_how_far_under_is_said_without_a_sign(imperial):
    assert imperial.say("over_f", -40.0) == "40 °F"


def test_lengths(metric, imperial):
    assert imperial.say("crack_in", 1.0) == "an inch"
    assert metric.say("crack_in", 1.0) == "2.5 cm"


@pytest.mark.parametrize(("fraction", "words"), [(0, "shut"), (0.05, "barely open"), (0.25, "a quarter open"),
                                                 (0.33, "a third open"), (0.5, "half open"), (1, "wide open")])
def test_openings(fraction, words):
    assert opening(fraction) == words


def test_only_shut_is_called_shut():
    assert opening(0.004) != "shut"


@pytest.mark.parametrize(("number", "words"), [(1, "1 minute"), (10, "10 minutes"), (60, "1 hour"),
                                               (95, "1 hour 35 minutes"), (61, "1 hour 1 minute")])
def test_minutes(number, words):
    assert minutes(number) == words


def test_fill_uses_the_fallback_only_when_unknown(imperial):
    assert imperial.fill("at {target_f|your target}", {}) == "at your target"
    assert imperial.fill("at {target_f|your target}", {"target_f": 250.0}) == "at 250 °F"


@pytest.mark.parametrize(("text", "fahrenheit", "celsius"), [
    ("{140 °F}", "140 °F", "60 °C"), ("{18 degrees}", "18 °F", "10 °C"), ("{9-18 degrees}", "9 to 18 °F", "5 to 10 °C"),
    ("{1 inch}", "an inch", "2.5 cm"), ("{2 inches}", "2 inches", "5.1 cm")])
def test_a_figure_in_a_text_is_said_in_the_persons_units(imperial, metric, text, fahrenheit, celsius):
    assert imperial.fill(text, {}) == fahrenheit
    assert metric.fill(text, {}) == celsius


@pytest.mark.parametrize(("goes_to", "stands", "says"), [
    (0.07, 0.09, "a fifth less open than now"), (0.09, 0.07, "a quarter more open than now"), (0.08, 0.03, "open a crack"),
    (0.08, None, "open a crack"), (0.0, 0.01, "shut"), (0.08, 0.081, "open a crack"),
])
def test_two_cracks_are_told_apart_by_where_the_vent_stands(goes_to, stands, says):
    assert opening_from(goes_to, stands) == says
