"""The JSON Schema of rule files: the stored copy is the one that RuleFile gives, and it knows every key."""

from advisor.rulebook.loader import rules_folder
from advisor.rulebook.rule_schema import FILE, rule_schema, schema_text
from advisor.rulebook.schema import RuleFile, Step, Then

WRITE = ("python -c \"from pathlib import Path; from advisor.rulebook.rule_schema import schema_text; "
         "Path('rules/rule.schema.json').write_text(schema_text())\"")


def test_the_stored_schema_has_not_drifted():
    assert (rules_folder() / FILE).read_text(encoding="utf-8") == schema_text(), f"write it again: {WRITE}"


def test_it_holds_every_key_of_a_rule_a_conclusion_and_a_step():
    schema = rule_schema()
    assert list(schema["properties"]) == list(RuleFile.model_fields)
    assert list(schema["$defs"]["Then"]["properties"]) == list(Then.model_fields)
    assert list(schema["$defs"]["Step"]["properties"]) == list(Step.model_fields)
    assert schema["additionalProperties"] is False and schema["$defs"]["Step"]["additionalProperties"] is True


def test_conditions_are_described_as_they_are_written():
    when = rule_schema()["properties"]["when"]["additionalProperties"]["anyOf"]
    tests = next(option for option in when if "properties" in option)
    assert set(tests["properties"]) == {"at_least", "above", "at_most", "below", "not", "known"}


def test_amounts_are_written_with_from():
    assert list(rule_schema()["$defs"]["Amount"]["properties"]) == ["from", "plus", "otherwise"]
