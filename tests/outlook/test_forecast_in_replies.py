"""Forecasts as replies carry them: figures, words, units, and silence where nothing can be said."""

import pytest

from advisor.conversation import Conversation
from advisor.outlook.prospect import planned_line
from advisor.profile import CookerProfile
from advisor.reply import ForecastSaid
from advisor.wording import Wording

STORY = "dome 375, want 275, bottom an inch, top half open, lit it 3 hours ago"


@pytest.fixture
def forecasting(rulebook):
    return Conversation(rulebook, CookerProfile(), forecasts=True)


def test_low_likely_and_high_are_in_order_and_the_goal_is_the_target(forecasting):
    found = forecasting.say(STORY, 0).forecast
    assert found.goal_f == 275
    assert 0 <= found.low_min <= found.likely_min <= found.high_min <= 120
    assert 0.4 <= found.confidence <= 0.8


def test_the_words_say_what_waiting_costs(forecasting):
    text = forecasting.say(STORY, 0).text
    assert "Back at 275 °F in about" in text and "Left alone" in text


def test_the_words_follow_the_units(forecasting):
    text = forecasting.say("dome 190 C, want 135 C, top half open, lit it 3 hours ago", 0).text
    assert "Back at 135 °C" in text


def test_a_distance_alone_is_not_forecast(forecasting):
    assert forecasting.say("im 100 over what now", 0).forecast is None


def test_on_target_there_is_nothing_to_wait_for(forecasting):
    assert forecasting.say("dome 277, want 275, top a quarter open", 0).forecast is None


def test_the_same_words_give_the_same_forecast(rulebook):
    said = [Conversation(rulebook, forecasts=True).say(STORY, 0).as_json() for _ in range(2)]
    assert said[0] == said[1]


def test_without_forecasts_the_same_advice_is_given_by_the_chart(rulebook):
    plain = Conversation(rulebook).say(STORY, 0)
    assert plain.forecast is None and plain.steps


def test_why_shows_which_numbers_the_model_gave(forecasting):
    reply = forecasting.say("dome 320, want 275, bottom an inch, top half open, lit it 3 hours ago, steady", 0)
    origins = {used.fact: used.origin for firing in reply.why for used in firing.used}
    assert origins.get("aim_top", "forecast") == "forecast"
    vents = [step.parameters["opening"] for step in reply.steps if step.act == "set_vent" and step.parameters["vent"] == "top"]
    assert vents and 0.02 <= vents[0] < 0.5


@pytest.mark.parametrize(("figures", "words"), [((34, 26, 45), "34 minutes (26 to 45,"),
                                                 ((39, 4, 120), "39 minutes (4 minutes to 2 hours,"),
                                                 ((70, 50, 95), "1 hour 10 minutes (50 minutes to 1 hour 35 minutes,")])
def test_minutes_and_hours_are_not_mixed_up(rulebook, figures, words):
    likely, low, high = figures
    said = ForecastSaid(goal_f=275, likely_min=likely, low_min=low, high_min=high, confidence=0.8)
    line = planned_line(said, 275.0, 0.8, rulebook.catalogue.phrases, Wording(rulebook.vocabulary))
    assert words in line
