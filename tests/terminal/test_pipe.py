"""`drafthand pipe` as the contract for programs says: a reply a line, and nothing that comes in stops it."""

import io
import json
import math
import re
import signal
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.session import Session
from advisor.terminal.lines import LONGEST_LINE
from advisor.terminal.pipe import Pipe, lines_of


class Program:
    """Another program on the other end of a pipe, in this process."""

    def __init__(self, conversation):
        self.pipe = Pipe(Session(conversation, None, SetClock()))

    def send(self, raw=None, **line):
        raw = json.dumps(line).encode() if raw is None else raw
        answer = self.pipe.answer(raw)
        assert "\n" not in answer
        return json.loads(answer, parse_constant=lambda name: pytest.fail(f"{name} in the output"))


@pytest.fixture
def program(conversation):
    return Program(conversation)


def test_words_are_answered_with_a_reply(program):
    reply = program.send(say="im 100 over what now", at_min=0)
    assert reply["heard"]["over_f"] == 100
    assert reply["steps"] and reply["text"] and reply["why"]


def test_readings_make_a_trend(program):
    program.send(reading={"target_f": 250}, at_min=0)
    for at_min, dome in ((0, 300), (5, 310), (10, 320)):
        reply = program.send(reading={"dome_f": dome}, at_min=at_min)
    assert reply["situation"]["over_f"] == 70
    assert reply["situation"]["dome_f"] == 320


def test_steps_done_leave_their_mark(program):
    steps = program.send(say="im 100 over what now", at_min=0)["steps"]
    vents = [step for step in steps if step["act"] == "set_vent"][:1]
    reply = program.send(done=[vents[0]["n"]], at_min=1)
    assert reply["situation"][f"{vents[0]['vent']}_vent"] == vents[0]["opening"]


def test_ages_grow_with_the_callers_clock(program):
    program.send(reading={"lit_ago_min": 10}, at_min=0)
    assert program.send(say="dome 250", at_min=35)["situation"]["lit_ago_min"] == 45


def test_another_cooker_starts_empty_and_the_first_is_kept(program):
    program.send(cooker="left", at_min=0)
    program.send(reading={"dome_f": 300}, at_min=1)
    assert program.send(cooker="right", at_min=2)["situation"] == {}
    assert program.send(cooker="left", at_min=3)["situation"]["dome_f"] == 300


def test_reset_starts_over_clock_included(program):
    program.send(reading={"dome_f": 300}, at_min=90)
    assert program.send(reset=True)["situation"] == {}
    assert "error" not in program.send(reading={"dome_f": 280}, at_min=0)


def test_why_and_why_not_leave_steps_and_situation(program):
    before = program.send(say="im 100 over what now", at_min=0)
    for words in ("why", "why not burp", "what if it hits 400"):
        after = program.send(say=words, at_min=1)
        assert after["steps"] == before["steps"]
        assert after["situation"] == before["situation"]


BAD_LINES = [b"", b"\n", b"\x00\xff\xfe\x80garbage", b'{"say": "x', b"{'say': 'x'}", b'{"reading": {"dome_f": NaN}}',
             b'{"reading": {"dome_f": 1e999}}', b'{"reading": {"dome_f": 5000}}', b'{"reading": {"dome_f": "hot"}}',
             b'{"reading": {"dome_f": null}}', b'{"reading": {"dome_f": true}}', b'{"reading": {"dom_f": 300}}',
             b'{"reading": {"dome_f": 300, "smoke": "purple"}}', b'{"reading": {"flames": 1}}',
             b'{"reading": {"dome_f": 301}, "at_min": 3}', b'{"say": "dome 500", "at_min": -3}', b'{"done": [99]}',
             b'{"done": [1, 99]}', b'{"shout": "x"}', b"[]", b"17", b'{"say": "dome 500", "loud": true}']


@pytest.mark.parametrize("raw", BAD_LINES)
def test_a_refused_line_loses_nothing(conversation, raw):
    program = Program(conversation)
    program.send(say="im 100 over what now", at_min=10)
    before = program.send(say="why", at_min=10)
    error = program.send(raw=raw)["error"]
    assert error["line"] == 3
    assert len(error["says"]) > 20 and "Traceback" not in error["says"]
    after = program.send(say="why", at_min=10)
    assert after["situation"] == before["situation"] and after["steps"] == before["steps"]


def test_lines_are_counted_whatever_they_hold(program):
    program.send(say="hello", at_min=0)
    program.send(raw=b"")
    program.send(reset=True)
    assert program.send(raw=b"?")["error"]["line"] == 4


@settings(max_examples=60, deadline=None)
@given(raws=st.lists(st.binary(max_size=60) | st.text(max_size=60).map(
    lambda words: json.dumps({"say": words}).encode()), max_size=4))
def test_whatever_comes_in_one_object_goes_out(rulebook, raws):
    program = Program(Conversation(rulebook))
    for raw in raws:
        answer = program.send(raw=raw)
        assert ("error" in answer) != ("situation" in answer)


@settings(max_examples=60, deadline=None)
@given(value=st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8) | st.lists(st.integers()),
       key=st.sampled_from(["dome_f", "smoke", "flames", "lit_ago_min", "food", "cooker", "nonsense"]))
def test_whatever_stands_in_a_reading_is_taken_or_refused(rulebook, key, value):
    program = Program(Conversation(rulebook))
    answer = program.send(reading={key: value}, at_min=0)
    if isinstance(value, float) and not math.isfinite(value):
        assert "error" in answer
    if "error" in answer:
        assert program.send(say="hello", at_min=0)["situation"] == {}


def test_of_a_line_too_long_the_rest_is_let_go_by():
    stream = io.BytesIO(b"a" * (3 * LONGEST_LINE) + b'\n{"say": "x"}\nlast')
    first, second, last = lines_of(stream)
    assert len(first) == LONGEST_LINE + 1
    assert (second, last) == (b'{"say": "x"}\n', b"last")


def test_as_a_process_it_answers_line_for_line(drafthand):
    lines = [b'{"say": "im 100 over what now", "at_min": 0}', *BAD_LINES[1:4],
             b'{"say": "why not burp", "at_min": 1}', "{\"say\": \"110 °C\"}".encode()]
    status, output, errors = drafthand("pipe", stdin=b"\n".join(line.strip(b"\n") for line in lines),
                                       PYTHONIOENCODING="ascii")
    answers = [json.loads(line) for line in output.splitlines()]
    assert status == 0 and errors == ""
    assert len(answers) == len(lines)
    assert [answer.get("error", {}).get("line") for answer in answers] == [None, 2, 3, 4, None, None]


def test_a_line_is_answered_before_the_next_is_sent():
    with subprocess.Popen([sys.executable, "-m", "advisor", "pipe"], stdin=subprocess.PIPE,
                          stdout=subprocess.PIPE) as process:
        for at_min in range(3):
            process.stdin.write(b'{"reading": {"dome_f": 300}, "at_min": %d}\n' % at_min)
            process.stdin.flush()
            assert json.loads(process.stdout.readline())["situation"]["dome_f"] == 300
        process.stdin.close()
        assert process.wait(timeout=30) == 0


def test_ctrl_c_ends_it_with_one_sentence():
    with subprocess.Popen([sys.executable, "-m", "advisor", "pipe"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE) as process:
        process.stdin.write(b'{"say": "dome 300"}\n')
        process.stdin.flush()
        process.stdout.readline()
        process.send_signal(signal.SIGINT)
        assert process.wait(timeout=30) == 1
        assert process.stderr.read() == b"drafthand: stopped from the keyboard\n"


def test_output_nobody_reads_ends_it_with_one_sentence():
    with subprocess.Popen([sys.executable, "-m", "advisor", "pipe"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE) as process:
        process.stdout.close()
        process.stdin.write(b'{"say": "dome 300"}\n')
        process.stdin.close()
        said = process.stderr.read().decode()
        assert process.wait(timeout=30) == 1
    assert re.fullmatch(r"drafthand: the output cannot be written .*\n", said)


def test_a_fault_of_ours_loses_nothing_either(conversation, monkeypatch):
    program = Program(conversation)
    program.send(say="dome 300, want 250", at_min=0)
    with monkeypatch.context() as broken:
        broken.setattr(type(conversation._advisers.common), "advise", lambda *given, **more: 1 / 0)
        assert "ZeroDivisionError" in program.send(say="dome 400", at_min=5)["error"]["says"]
        assert "error" in program.send(cooker="left", at_min=6)
    after = program.send(say="thanks", at_min=1)
    assert (after["situation"]["dome_f"], after["cooker"]) == (300, None)
