"""The situation as a pydantic model, generated from the vocabulary: for the schema and for tests, never for a turn."""

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, create_model

from advisor.vocabulary import UNIT_NAMES, FactDefinition, Vocabulary

UNIT_IN_WORDS = {**UNIT_NAMES, "fraction": "fraction 0..1", "flag": "true or false", "choice": "one of these words", "count": "how many",
                 "text": "words"}
MOVES = {"grows": "; grows with the clock", "falls": "; falls with the clock", "stands": ""}


def situation_model(vocabulary: Vocabulary) -> type[BaseModel]:
    """Every fact that may be told, all of them optional: absent means unknown. Units stand in the descriptions."""
    fields: dict[str, Any] = {name: _field(fact) for name, fact in vocabulary.told.items()}
    return create_model("Situation", __doc__="What is known of a cook. Every key optional; absent means unknown.",
                        __config__=ConfigDict(extra="forbid"), **fields)


def _field(fact: FactDefinition) -> tuple[Any, Any]:
    described = f"{fact.says} ({UNIT_IN_WORDS[fact.type]}{MOVES[fact.clock]})"
    if not fact.is_number:
        return _kind(fact), Field(default=None, description=described)
    low, high = fact.bounds
    return float, Field(default=None, description=described, ge=low, le=high, allow_inf_nan=False)


def _kind(fact: FactDefinition) -> Any:
    if fact.type == "flag":
        return bool
    return Literal[fact.values] if fact.type == "choice" else str
