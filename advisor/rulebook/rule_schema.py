"""The JSON Schema of a rule file, for completion in editors. Made from RuleFile, so it can't say anything else."""

import json
from typing import Any

from advisor.rulebook.schema import RuleFile

FILE = "rule.schema.json"  # where it is kept in the rules folder


def rule_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of one rule file."""
    schema = RuleFile.model_json_schema(by_alias=True)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema, "title": "A drafthand rule"}


def schema_text() -> str:
    """The schema as it is kept in FILE."""
    return json.dumps(rule_schema(), indent=2) + "\n"
