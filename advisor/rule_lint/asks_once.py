"""asks-once: no text but a question asks anything.

Avoid
    says: Read the dome and tell me. Is there a good glow?
Prefer
    says: Read the dome and tell me. Look whether there is a good glow.
    ask_if_unknown: [burn_pattern]                             and let the question of the vocabulary be asked
Why
    A reply asks one thing at a time: a cook with greasy hands answers one question. A second one hidden in a step
    is never understood when it is answered.
"""

from collections.abc import Iterator

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Key, Material
from advisor.rulebook.schema import Rule

ID = "asks-once"
SEEN, MATTERS, DO = "the text asks a question", "a reply asks one thing at a time", "say it as a statement"


def check(material: Material) -> Iterator[Issue]:
    for rule in material.rules:
        for keys, text in _texts(rule):
            if "?" in text:
                yield material.issue(ID, rule, keys, SEEN, MATTERS, DO)
    for list_name in ("cautions", "findings"):
        for name, entry in getattr(material.catalogue, list_name).items():
            if "?" in entry.says:
                yield material.listed(ID, f"{list_name}.yaml", [list_name, name, "says"], SEEN, MATTERS, DO)


def _texts(rule: Rule) -> Iterator[tuple[list[Key], str]]:
    for key in ("works_if", "if_not", "tell"):
        if text := getattr(rule.then, key):
            yield ["then", key], text
    for number, step in enumerate(rule.then.steps or ()):
        yield ["then", "steps", number, "says"], step.says
