"""`drafthand schema`: the JSON Schema of everything another program sends or gets."""

import argparse
import json
from typing import Any

from pydantic import BaseModel, ConfigDict, Field
from pydantic.json_schema import models_json_schema

from advisor.reply import Reply
from advisor.rulebook.catalogue import Catalogue
from advisor.rulebook.loader import Rulebook, read_rulebook
from advisor.terminal import door
from advisor.terminal.lines import LINES
from advisor.terminal.situation import situation_model

DIALECT = "https://json-schema.org/draft/2020-12/schema"
HOLD_SITUATIONS = (("Reply", "situation"), ("Reply", "heard"), ("OtherHeard", "heard"), ("ReadingLine", "reading"))


class Complaint(BaseModel):
    """What was wrong with a line: its number, counted from 1, and a sentence."""

    model_config = ConfigDict(extra="forbid")
    line: int = Field(ge=1)
    says: str


class ErrorAnswer(BaseModel):
    """The answer to a line that could not be taken."""

    model_config = ConfigDict(extra="forbid")
    error: Complaint


def run(call: argparse.Namespace) -> int:
    door.send(json.dumps(schema(read_rulebook()), indent=2, ensure_ascii=False))
    return 0


def schema(rulebook: Rulebook) -> dict[str, Any]:
    """One document; `situation`, `reply`, `line` and `error` are its properties, the details stand under $defs."""
    models = [situation_model(rulebook.vocabulary), Reply, ErrorAnswer, *LINES.values()]
    _, whole = models_json_schema([(model, "validation") for model in models])
    definitions = whole["$defs"]
    for owner, key in HOLD_SITUATIONS:
        definitions[owner]["properties"][key] = _refer("Situation")
    definitions["StepSaid"]["properties"] |= _step(rulebook.catalogue)
    return {
        "$schema": DIALECT, "title": "drafthand: situation, reply and the lines of pipe", "type": "object",
        "properties": {"situation": _refer("Situation"), "reply": _refer("Reply"), "error": _refer("ErrorAnswer"),
                       "line": {"anyOf": [_refer(model.__name__) for model in LINES.values()]}},
        "$defs": definitions,
    }


def _step(catalogue: Catalogue) -> dict[str, Any]:
    """The acts by name, and what each may carry beside the common keys."""
    takes = {name: ", ".join(act.params) for name, act in catalogue.acts.items() if act.params}
    carries = "; ".join(f"{name} carries {params}" for name, params in takes.items())
    known: dict[str, Any] = {"act": {"enum": list(catalogue.acts), "description": carries}}
    for act in catalogue.acts.values():
        for name, parameter in act.params.items():
            known[name] = ({"enum": list(parameter.values)} if parameter.values else
                           {"type": "number", "minimum": parameter.low, "maximum": parameter.high})
    return known


def _refer(name: str) -> dict[str, str]:
    return {"$ref": f"#/$defs/{name}"}
