"""The schema holds real replies, real lines and nothing else: the contract and the code, held together."""

import json

import pytest

from advisor.clock import SetClock
from advisor.session import Session
from advisor.terminal.pipe import Pipe
from advisor.terminal.schema import schema

jsonschema = pytest.importorskip("jsonschema", reason="it holds replies against the schema")

LINES = [{"say": "im 100 over what now", "at_min": 0}, {"say": "why"}, {"say": "why not burp"},
         {"say": "what if it hits 400"}, {"reading": {"dome_f": 310, "top_vent": 0.25}, "at_min": 3},
         {"say": "number two is at 400, want 250"}, {"say": "white smoke all over and it smells acrid"},
         {"cooker": "left", "at_min": 30}, {"say": "what is the capital of the moon"}, {"say": ""},
         {"say": "grease fire! flames out of the top"}, {"reset": True}]


@pytest.fixture(scope="module")
def written(rulebook):
    return schema(rulebook)


def holds(written, part, data):
    document = written["properties"][part] | {"$defs": written["$defs"], "$schema": written["$schema"]}
    jsonschema.validate(data, document, cls=jsonschema.Draft202012Validator)


def test_it_is_a_schema(written):
    jsonschema.Draft202012Validator.check_schema(written)


def test_every_real_reply_holds(written, conversation):
    pipe = Pipe(Session(conversation, None, SetClock()))
    for line in LINES:
        holds(written, "line", line)
        reply = json.loads(pipe.answer(json.dumps(line).encode()))
        holds(written, "reply", reply)
        holds(written, "situation", reply["situation"])


def test_errors_hold(written, conversation):
    holds(written, "error", json.loads(Pipe(Session(conversation, None, SetClock())).answer(b"?")))


@pytest.mark.parametrize(("part", "data"), [
    ("situation", {"dome_f": 5000}), ("situation", {"dom_f": 250}), ("situation", {"smoke": "purple"}),
    ("situation", {"flames": "yes"}), ("line", {"say": 3}), ("line", {"reading": {"dome_f": "hot"}}),
    ("line", {"reset": False}), ("line", {"say": "x", "loud": True}), ("reply", {"understood": "maybe"}),
    ("error", {"error": {"line": 0, "says": "x"}}),
])
def test_what_is_off_does_not_hold(written, part, data):
    with pytest.raises(jsonschema.ValidationError):
        holds(written, part, data)


def test_every_fact_names_its_unit(written, rulebook):
    properties = written["$defs"]["Situation"]["properties"]
    assert set(properties) == set(rulebook.vocabulary.told)
    assert "°F" in properties["dome_f"]["description"] and "min" in properties["lit_ago_min"]["description"]
    assert all("(" in fact["description"] for fact in properties.values())


def test_the_command_prints_it(drafthand, written):
    status, output, errors = drafthand("schema")
    assert (status, errors) == (0, "")
    assert json.loads(output) == json.loads(json.dumps(written))
