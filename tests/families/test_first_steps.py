"""Trouble told without a target or without figures still gets a first step, and no question that nothing hangs on."""

from functools import partial
from pathlib import Path

import pytest
import yaml
from holding import hold

talk = partial(hold, each_min=1.0)
TALK = yaml.safe_load((Path(__file__).parent.parent / "data" / "first_steps.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("rule", TALK)
def test_the_first_step_is_there(rulebook, rule):
    reply = talk(rulebook, TALK[rule])[-1]
    opening = rulebook.by_id[rule].then.steps[0].says.split("{")[0].strip()
    assert any(step.says.startswith(opening) for step in reply.steps), [step.says for step in reply.steps]


@pytest.mark.parametrize("words", ["cant get my bbq above 95 degrees, need 120", "dome 200 want 250", "dome 300 want 350"])
def test_a_vent_nobody_knows_of_is_only_opened_while_it_is_too_cold(rulebook, words):
    first = next(step for step in talk(rulebook, [words])[0].steps if step.act == "set_vent" and not step.when)
    assert first.parameters["opening"] >= 0.5
    assert first.parameters["opening"] == 1 or "leave it if it stands wider" in first.says


def test_where_it_leaks_shows_in_smoke_at_the_band_and_in_the_paper_that_slides_out(rulebook):
    shut = "shut everything off an hour ago and shes still sittin at 380"
    for words in ("smoke's comin out round the band at the back", "dollar bill slides right out at the back"):
        reply = talk(rulebook, [shut, words])[-1]
        assert reply.heard == {"gasket_leaks": True}
        assert not [step for step in reply.steps if step.act == "set_vent" and step.parameters["opening"] > 0]


@pytest.mark.parametrize("turns", [
    ["shut it down, both vents shut, food off"], ["shut it down, both vents shut, food off", "it is shut down now"],
    ["drip pan is on fire", "lid down and both vents shut", "+7 flames are out"],
], ids=lambda turns: turns[-1])
def test_nothing_is_asked_once_no_answer_matters(rulebook, turns):
    reply = talk(rulebook, turns)[-1]
    assert reply.asks is None and reply.steps


def test_moving_vents_counts_no_more_when_they_were_left_alone(rulebook):
    at_once, later = talk(rulebook, ["dome 280 want 250, fiddling every 3 min", "+30 285"])
    assert "vents-chased" in {finding.id for finding in at_once.findings}
    assert "vents-chased" not in {finding.id for finding in later.findings}


@pytest.mark.parametrize("words", ["the lid is open", "i opened the lid and the temp dropped"])
def test_an_open_lid_is_closed_without_a_figure(rulebook, words):
    assert talk(rulebook, [words])[0].steps[0].act == "close_lid"


@pytest.mark.parametrize("words", ["help", "can you help me", "i messed up", "something is wrong"])
def test_a_cry_for_help_gets_hands_off_and_what_to_look_at(rulebook, words):
    reply = talk(rulebook, [words])[0]
    assert "Lid down and hands off" in reply.text and "feels ill" in reply.text and reply.asks
