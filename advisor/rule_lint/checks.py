"""The table of checks: id to check, id to page."""

from collections.abc import Callable, Iterator

from advisor.rule_lint import (
    agreement,
    amounts,
    asks_once,
    can_fire,
    contradiction,
    duplicates,
    engine_takes,
    has_cases,
    keys,
    loads,
    placeholders,
    questions_asked,
    retired,
    safe_steps,
    source,
    unused,
    vent_moves,
)
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material

MODULES = (loads, engine_takes, can_fire, has_cases, safe_steps, source, contradiction, agreement, vent_moves, amounts,
           asks_once, placeholders, keys, retired, duplicates, unused, questions_asked)
CHECKS: dict[str, Callable[[Material], Iterator[Issue]]] = {module.ID: module.check for module in MODULES}
PAGES: dict[str, str] = {module.ID: module.__doc__ for module in MODULES}
