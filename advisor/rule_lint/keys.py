"""keys: the keys of a rule file stand in the one order, each once.

Avoid
    then before when; source at the top; the same fact twice under `when` (only the last would count)
Prefer
    id, title, status, when, unless, then, because, ask_if_unknown, known_exceptions, source, changed
Why
    Whoever has read one rule can read them all, and finds the condition beside the words. YAML lets a second key
    of the same name silently replace the first.
"""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import yaml

from advisor.rule_lint.cases import cases_path
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rulebook.catalogue import LISTS
from advisor.rulebook.schema import RuleFile, Then
from advisor.yamlfile import Loader

ID = "keys"
ORDER = tuple(RuleFile.model_fields)
ORDER_OF_THEN = tuple(Then.model_fields)


def check(material: Material) -> Iterator[Issue]:
    for rule in material.rules:
        root = _compose(Path(rule.path))
        yield from _doubles(rule.path, root)
        yield from _order(rule.path, root, ORDER)
        then = next((value for key, value in root.value if key.value == "then"), None)
        yield from _order(rule.path, then, ORDER_OF_THEN)
    for path in (*(material.folder / name for name in ("vocabulary.yaml", *LISTS)), *map(cases_path, material.rules)):
        if path.exists():
            yield from _doubles(str(path), _compose(path))


def _compose(path: Path) -> yaml.Node | None:
    return yaml.compose(path.read_text(encoding="utf-8"), Loader=Loader)


def _order(file: str, node: yaml.Node | None, order: tuple[str, ...]) -> Iterator[Issue]:
    """The first key that stands behind one that should follow it."""
    keys = [key for key, _ in node.value if key.value in order] if isinstance(node, yaml.MappingNode) else []
    for before, key in pairwise(keys):
        if order.index(key.value) < order.index(before.value):
            yield Issue(file, key.start_mark.line + 1, ID, f"{key.value} stands after {before.value}",
                        "every rule is read in the same order", f"the order is {', '.join(order)}")
            return


def _doubles(file: str, node: yaml.Node | None) -> Iterator[Issue]:
    if isinstance(node, yaml.MappingNode):
        seen: set[str] = set()
        for key, value in node.value:
            if key.value in seen:
                yield Issue(file, key.start_mark.line + 1, ID, f"{key.value} stands here twice",
                            "only the last one would count", "keep one")
            seen.add(key.value)
            yield from _doubles(file, value)
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from _doubles(file, value)
