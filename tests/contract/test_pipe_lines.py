"""Lines of `pipe`: five kinds, one answer each, the caller's clock, and lines that can't be taken."""

import json

import pytest

REFUSED = [
    b"", b"   ", b"{", b"[]", b"null", b"3", b'"say"', b'{"say": "x"', b"{'say': 'x'}", b"\x00\x01\xff\xfe", b'{"say": 3}',
    b'{"say": null}', b'{"sya": "x"}', b"{}", b'{"at_min": 3}', b'{"say": "x", "reading": {"dome_f": 3}}',
    b'{"reading": {}}', b'{"reading": []}', b'{"reading": {"dome_f": NaN}}', b'{"reading": {"dome_f": Infinity}}',
    b'{"reading": {"dome_f": 1e999}}', b'{"reading": {"dome_f": 5000}}', b'{"reading": {"dome_f": -500}}',
    b'{"reading": {"dome_f": "310"}}', b'{"reading": {"dome_f": null}}', b'{"reading": {"dome_f": true}}',
    b'{"reading": {"bottom_vent": 1.5}}', b'{"reading": {"bottom_vent": -0.1}}', b'{"reading": {"fuel_level": 2}}',
    b'{"reading": {"smoke": "purple"}}', b'{"reading": {"lid_open": "yes"}}', b'{"reading": {"lid_open": 1}}',
    b'{"reading": {"dom_f": 310}}', b'{"reading": {"lit_ago_min": -5}}', b'{"reading": {"dome_f": 310, "smoke": "purple"}}',
    b'{"done": 1}', b'{"done": []}', b'{"done": [0]}', b'{"done": [-1]}', b'{"done": [99]}', b'{"done": ["1"]}',
    b'{"done": [1.5]}', b'{"done": [true]}', b'{"cooker": ""}', b'{"cooker": "  "}', b'{"cooker": 2}',
    b'{"cooker": "' + b"x" * 200 + b'"}', b'{"reset": false}', b'{"reset": "yes"}',
    b'{"say": "dome 500", "at_min": 9}', b'{"say": "dome 500", "at_min": -1}', b'{"say": "dome 500", "at_min": "20"}',
    b'{"say": "dome 500", "at_min": NaN}', b'{"say": "dome 500", "at_min": 1e999}', b'{"say": "dome 500", "extra": 1}',
    b'{"say": "\\ud83d"}', b"[" * 5000, b'{"cooker": "left", "at_min": 3}',
]


@pytest.mark.parametrize("raw", REFUSED, ids=lambda raw: repr(raw)[:40])
def test_a_line_that_cannot_be_taken_changes_nothing(program, raw):
    program.say("dome 400, want 250", 10)
    before = program.say("thanks", 10)
    error = program.send(raw=raw)["error"]
    assert error["line"] == 3
    assert error["says"].strip() and "\n" not in error["says"] and "Traceback" not in error["says"]
    assert program.say("thanks", 10) == before


def test_the_conversation_goes_on_after_many_bad_lines(program):
    program.say("dome 400, want 250", 10)
    for n, raw in enumerate(REFUSED):
        assert program.send(raw=raw)["error"]["line"] == n + 2
    assert program.say("now 390", 11)["situation"]["over_f"] == 140


def test_lines_are_answered_with_one_line_each(program):
    answer = program.pipe.answer(json.dumps({"say": "dome 400\nwant 250\r\n\u2028both vents shut"}).encode())
    assert "\n" not in answer and json.loads(answer)["situation"]["target_f"] == 250


# ---- the caller's clock --------------------------------------------------------------------------------------------


def test_the_clock_never_goes_back(program):
    program.say("dome 400", 20)
    assert "error" in program.send(say="dome 300", at_min=19.9)
    assert program.say("thanks", 20)["situation"]["dome_f"] == 400


def test_the_same_minute_may_be_sent_again(program):
    program.say("dome 400", 20)
    assert program.say("want 250", 20)["situation"]["over_f"] == 150


def test_minutes_may_be_fractions(program):
    program.send(reading={"lit_ago_min": 10}, at_min=0)
    assert program.say("thanks", 12.5)["situation"]["lit_ago_min"] == 22.5


def test_left_out_the_real_clock_serves_from_where_the_caller_was(program):
    program.send(reading={"lit_ago_min": 10}, at_min=100)
    program.clock.set(3)
    assert program.say("thanks")["situation"]["lit_ago_min"] == 13
    assert program.say("thanks", 110)["situation"]["lit_ago_min"] == 20


@pytest.mark.parametrize("at_min", [None, 0, 500])
def test_reset_starts_over_clock_included(program, at_min):
    program.say("number two is at 400, want 250, the grease is on fire", 500)
    reply = program.send(reset=True) if at_min is None else program.send(reset=True, at_min=at_min)
    assert (reply["situation"], reply["steps"], reply["cautions"], reply["heard"]) == ({}, [], [], {})
    reply = program.say("lit it 5 minutes ago", at_min or 0)
    assert reply["situation"]["lit_ago_min"] == 5 and "dome_f" not in reply["situation"]
    assert program.send(cooker="2", at_min=at_min or 0)["situation"] == {}


def test_units_are_forgotten_with_a_reset(program):
    program.say("dome 180 C, want 110 C", 0)
    program.send(reset=True)
    assert "°C" not in program.say("dome 350, want 250", 0)["text"]


# ---- steps done ----------------------------------------------------------------------------------------------------


def test_steps_are_those_of_the_last_reply(program):
    program.say("im 100 over", 0)
    program.send(done=[1, 2], at_min=1)
    assert program.last["steps"][0]["act"] == "wait"
    assert "error" in program.send(done=[len(program.last["steps"]) + 1], at_min=2)


def test_the_same_step_may_be_sent_twice(program):
    program.say("im 100 over", 0)
    assert program.send(done=[1, 1], at_min=1)["situation"]["bottom_vent"] == 0


def test_a_report_in_words_is_like_a_report_in_figures(rulebook, program):
    program.say("dome 400, want 250", 0)
    by_words = program.say("now 310", 5)["situation"]
    program.send(reset=True)
    program.say("dome 400, want 250", 0)
    assert program.send(reading={"dome_f": 310}, at_min=5)["situation"] == by_words


# ---- when a step is due --------------------------------------------------------------------------------------------


def test_a_step_for_later_says_when_it_is_due(program):
    steps = program.say("dome 400, want 250", 0)["steps"]
    later = [step for step in steps if step.get("when")]
    assert later
    for step in later:
        for fact, bounds in step["when"].items():
            assert fact in ("dome_f", "over_f") and set(bounds) <= {"at_most", "at_least", "above", "below"}


def test_both_vents_moved_are_two_steps(program):
    steps = program.say("dome 400, want 250", 0)["steps"]
    assert [step["vent"] for step in steps[:2]] == ["bottom", "top"]
