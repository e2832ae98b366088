"""Smoke, told in plain words: which rules speak, what is done, warned of and asked. Every branch is reached by words."""

from pathlib import Path

import pytest
import yaml
from holding import hold

from advisor.reply import Reply

TALK = yaml.safe_load((Path(__file__).parent.parent / "data" / "smoke_talk.yaml").read_text(encoding="utf-8"))


def rules_of(reply: Reply) -> set[str]:
    return {firing.rule for firing in reply.why}


def acts_of(reply: Reply) -> list[str]:
    return [step.act for step in reply.steps]


def cautions_of(reply: Reply) -> set[str]:
    return {caution.id for caution in reply.cautions}


@pytest.fixture(scope="module")
def heard(rulebook) -> dict[str, list[Reply]]:
    return {rule: hold(rulebook, turns) for rule, turns in TALK.items()}


@pytest.mark.parametrize("rule", TALK)
def test_plain_words_reach_the_rule(heard, rule):
    assert rule in rules_of(heard[rule][-1])


@pytest.mark.parametrize("rule", [rule for rule in TALK if rule.startswith("recover/")])
def test_the_procedure_is_followed_not_only_found(heard, rulebook, rule):
    steps = rulebook.by_id[rule].then.steps
    said = [step.says for step in heard[rule][-1].steps]
    opening = steps[0].says.split("{")[0].strip()
    assert any(line.startswith(opening) for line in said)


@pytest.mark.parametrize("rule", [rule for rule in TALK if rule.startswith("teach/")])
def test_a_question_gets_one_answer(heard, rule):
    assert [answer.because for answer in heard[rule][-1].answers] == [rule]


def test_every_smoke_finding_is_argued_from_words(heard, rulebook):
    smoke = {name for name, finding in rulebook.catalogue.findings.items() if finding.family == "smoke"}
    arguing = {rule.id for rule in rulebook.of("diagnose") if set(rule.then.points_to) <= smoke}
    fired = {rule for replies in heard.values() for reply in replies for rule in rules_of(reply)}
    assert len(arguing) > 40
    assert arguing - fired == set()


def test_no_reply_asks_twice_or_moves_a_vent_twice_without_a_wait(heard):
    for replies in heard.values():
        for reply in replies:
            moved = [step.parameters["vent"] for step in reply.steps if step.act == "set_vent" and not step.when]
            assert len(moved) == len(set(moved)), reply.text
            assert reply.text.count("?") <= 3, reply.text


# -- what a good hand would do -----------------------------------------------------------------------------------

def test_a_young_fire_is_waited_for_and_food_kept_off(rulebook):
    *_, reply = hold(rulebook, ["thick white smoke", "just lit it 15 minutes ago", "no food yet"])
    assert "recover/fire-just-lit--wait-for-thin-smoke" in rules_of(reply)
    assert "recover/food-in-dirty-smoke--keep-it-off" in rules_of(reply)
    assert not {"put_food_on", "open_lid_slowly", "burp_lid"} & set(acts_of(reply))


def test_fresh_wood_clears_by_itself_then_gets_air_then_time(rulebook):
    first, later, told, done, clean = hold(rulebook, [
        "threw 2 chunks of cherry on ten mins ago and its smoking heavy white", "+12 still pouring white smoke",
        "top is barely open, bottom an inch", "done", "+11 its thin blue now"])
    assert acts_of(first)[0] == "keep_lid_shut" and "add_wood" not in acts_of(first)
    assert "set_vent" not in acts_of(first) + acts_of(later)
    assert (told.steps[0].act, told.steps[0].parameters["vent"]) == ("set_vent", "top")
    assert 0.05 < told.steps[0].parameters["opening"] <= 0.12
    assert acts_of(done)[0] == "wait"
    assert "smoke-clean" in {finding.id for finding in clean.findings}


def test_no_smoke_at_temperature_is_left_alone(rulebook):
    reply, = hold(rulebook, ["cant see any smoke at 250, is it still going"])
    assert acts_of(reply) == ["change_nothing"]
    assert "clean" in reply.text and not reply.cautions


def test_no_smoke_on_target_needs_nothing(rulebook):
    reply, = hold(rulebook, ["no smoke, dome 225 and steady, want 225"])
    assert acts_of(reply) == ["change_nothing"]


def test_treated_wood_throws_the_food_away_before_the_fire_is_shut_in(rulebook):
    reply, = hold(rulebook, ["i used pallet wood and the ribs are on"])
    acts = acts_of(reply)
    assert acts[:3] == ["stand_clear", "take_food_off", "discard_food"]
    assert acts.index("discard_food") < acts.index("set_vent")
    assert {"poison-smoke", "open-a-crack-first"} <= cautions_of(reply)


def test_poisonous_smoke_is_warned_of_for_as_long_as_it_lasts(rulebook):
    for reply in hold(rulebook, ["i used pallet wood and the ribs are on", "done", "+20 dome 200"]):
        assert "poison-smoke" in cautions_of(reply)


def test_fluid_with_food_on_asks_for_the_smell_and_a_bad_smell_bins_it(rulebook):
    first, then = hold(rulebook, ["i lit it with lighter fluid and the burgers are on", "smells like chemicals"])
    assert "take_food_off" in acts_of(first) and "discard_food" not in acts_of(first)
    assert first.asks.fact == "smell"
    assert "discard_food" in acts_of(then)


def test_black_smoke_never_opens_the_lid(rulebook):
    reply, = hold(rulebook, ["black smoke coming out"])
    assert acts_of(reply) == ["keep_lid_shut"]
    assert {"fat-smoke-may-light", "grease-no-water"} & cautions_of(reply)


def test_dirty_smoke_of_a_choked_fire_opens_no_vent_for_the_smoke(rulebook):
    reply, = hold(rulebook, ["thick white smoke, both vents are shut, dome 350, want 250"])
    assert acts_of(reply)[0] in ("wait", "burp_lid") and "open-a-crack-first" in cautions_of(reply)
    assert all(step.when for step in reply.steps if step.act == "set_vent")
    assert "smokes until you open it up" in reply.text


def test_wood_goes_in_crack_first_one_chunk_and_no_vent_is_touched(rulebook):
    reply, = hold(rulebook, ["not enough smoke, ribs went on 30 min ago"])
    assert acts_of(reply) == ["add_wood", "close_lid"]
    assert reply.steps[0].parameters["wood_g"] == 150
    assert {"open-a-crack-first", "hot-ceramic"} <= cautions_of(reply)


def test_no_wood_for_a_fire_that_is_too_hot(rulebook):
    *_, reply = hold(rulebook, ["I want more smoke", "dome 400, want 250"])
    assert "add_wood" not in acts_of(reply)


def test_wood_taken_out_is_not_taken_out_again(rulebook):
    *_, before, after = hold(rulebook, ["no deflector and a quarter wood", "thick white smoke", "done"])
    assert "remove_wood" in acts_of(before) and "burning-wood-out" in cautions_of(before)
    assert "remove_wood" not in acts_of(after)


def test_short_dirty_spells_leave_the_food_and_half_an_hour_takes_it_off(rulebook):
    short, = hold(rulebook, ["chicken on, white smoke for 10 minutes"])
    long, = hold(rulebook, ["chicken on, white smoke for 40 minutes"])
    assert "take_food_off" not in acts_of(short)
    assert "take_food_off" in acts_of(long) and "half-cooked-food" in cautions_of(long)
