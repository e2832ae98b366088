"""A conversation put away as data and taken up again goes on as if nothing had been."""

import copy
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.conversation import Conversation
from advisor.cook import Cook
from advisor.remembering import remember
from advisor.situation import Situation
from advisor.stand import Stand

TALK = [("im 100 over, want 250, bottom half open", 0), ("done", 2), ("now 330", 9), ("no idea", 10), ("no i meant 320", 10.5),
        ("number two is at 180, want 225", 12), ("can't shut the top", 13), ("110 °C and falling", 20), ("undo", 21),
        ("done", 24), ("thanks", 25), ("why", 26)]


def put_away(conversation):
    return json.loads(json.dumps(conversation.state()))


def resumed(conversation, rulebook):
    other = Conversation(rulebook)
    other.resume(put_away(conversation))
    return other


@pytest.mark.parametrize("cut", range(len(TALK)))
def test_wherever_it_is_cut_it_goes_on_the_same(rulebook, cut):
    whole = Conversation(rulebook)
    for words, now in TALK[:cut]:
        whole.say(words, now)
    other = resumed(whole, rulebook)
    assert other.stand.all == whole.stand.all and other.stand.earlier == whole.stand.earlier
    for words, now in TALK[cut:]:
        assert other.say(words, now) == whole.say(words, now)


def test_the_physics_goes_on_with_what_it_found(rulebook):
    """A vent figure once found is used while the fire wanders; found anew from later readings it would be another."""
    whole = Conversation(rulebook, forecasts=True)
    whole.reading({"target_f": 250.0, "dome_f": 430.0}, 0)
    for n in range(1, 6):
        whole.reading({"dome_f": 430.0 - 9 * n}, 5 * n)
    other = Conversation(rulebook, forecasts=True)
    other.resume(put_away(whole))
    assert other.state()["found"] == whole.state()["found"]
    for n in range(6, 10):
        assert other.reading({"dome_f": 430.0 - 9 * n}, 5 * n) == whole.reading({"dome_f": 430.0 - 9 * n}, 5 * n)
    assert whole.state()["found"]["all"]
    whole.reset()
    assert not whole.state()["found"]["all"]


@settings(max_examples=25, deadline=None)
@given(turns=st.lists(st.sampled_from(["dome {n}", "{n} over", "done", "lid open", "top half", "now {n} C", "undo", "on my patio",
                                       "left one is at {n}", "meat at 150, want 203"]), max_size=6),
       n=st.integers(90, 450))
def test_any_conversation_survives_json(rulebook, turns, n):
    conversation = Conversation(rulebook)
    for minute, words in enumerate(turns):
        conversation.say(words.format(n=n + minute), minute)
    other = resumed(conversation, rulebook)
    assert other.state() == conversation.state()
    assert other.say(f"now {n}", 30) == conversation.say(f"now {n}", 30)


@pytest.fixture
def state(rulebook):
    conversation = Conversation(rulebook)
    conversation.say("dome 310, want 250, number one", 0)
    conversation.say("done", 2)
    return put_away(conversation)


def known(rulebook, state):
    conversation = Conversation(rulebook)
    conversation.resume(state)
    reply = conversation.status(3)
    return reply.situation, reply


def test_an_older_state_without_a_field_is_taken(rulebook, state):
    def without(data, field):
        if isinstance(data, dict):
            return {key: without(value, field) for key, value in data.items() if key != field}
        return [without(item, field) for item in data] if isinstance(data, list) else data

    for field in ("waiting", "deeds", "asked_times", "moves", "since_min", "units", "earlier", "declined", "because"):
        assert known(rulebook, without(state, field))[0]["dome_f"] == 310, field


def test_what_nobody_can_read_goes_and_the_rest_stays(rulebook, state):
    cook = next(cook for cook in state["cooks"].values() if cook["name"] == "1" and "dome_f" in cook["situation"]["facts"])
    cook["situation"]["facts"]["top_vent"] = {"name": "top_vent", "value": ["nonsense"]}
    cook["situation"]["readings"].append("nonsense")
    cook["steps"][0] = {"act": "wait"}
    state["a_field_of_tomorrow"] = 7
    situation, _ = known(rulebook, state)
    assert situation["dome_f"] == 310


def test_what_the_rules_do_not_know_any_more_goes(rulebook, state):
    for cook in state["cooks"].values():
        cook["situation"]["facts"]["moon_phase"] = {"name": "moon_phase", "value": 0.5, "origin": "said", "at_min": 0}
        cook["situation"]["facts"]["smoke"] = {"name": "smoke", "value": "purple", "origin": "said", "at_min": 0}
        for step in cook["steps"]:
            step["act"] = "dance"
    situation, _ = known(rulebook, state)
    assert situation["dome_f"] == 310 and not {"smoke", "moon_phase"} & set(situation)


@pytest.mark.parametrize("nonsense", [{}, {"cooks": 3}, {"cooks": {"0": None}, "now": {"cooks": ["9"], "current": "x"}}])
def test_of_nonsense_nothing_is_left_and_nothing_fails(rulebook, nonsense):
    kept = copy.deepcopy(nonsense)
    assert known(rulebook, nonsense)[0] == {}
    assert nonsense == kept


def test_turned_to_another_cooker_it_stays_there(rulebook):
    conversation = Conversation(rulebook)
    conversation.switch("left", 0)
    conversation.switch("right", 0)
    other = Conversation(rulebook)
    other.resume(put_away(conversation), in_hand="left")
    assert other.current.name == "left"
    other.resume(put_away(conversation), in_hand="middle")
    assert other.current.name == "right"


def test_the_same_talk_is_put_away_as_the_same_data_by_every_process():
    """Python orders the words of a set anew in every process."""
    declined, cannot = (frozenset(f"{name}_{n}" for n in range(20)) for name in ("question", "move"))
    cook = Cook(situation=Situation(declined=declined, cannot=cannot))
    kept = next(iter(remember(Stand([cook]), None)["cooks"].values()))["situation"]
    assert kept["declined"] == sorted(declined) and kept["cannot"] == sorted(cannot)
