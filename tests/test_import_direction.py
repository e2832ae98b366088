"""Imports run one way: a module may import from its own row or rows above, never below; and who may touch what."""

import ast
from pathlib import Path

ADVISOR = Path(__file__).parent.parent / "advisor"

ROWS = [
    {"errors", "units", "facts", "clock"},
    {"suggestions", "conditions", "yamlfile", "cooknames"},
    {"vocabulary", "profile", "settings", "water", "airway", "response", "book", "pace"},
    {"rulebook"},
    {"changes", "situation", "ventchart"},
    {"record"},
    {"bracket", "starving", "looks"},
    {"placing"},
    {"steering"},
    {"derivation"},
    {"inference", "language", "thermal", "logbook", "wording"},
    {"reply", "lacking", "steps"},
    {"plan", "questions", "explanation", "telling"},
    {"outlook"},
    {"advice", "cook"},
    {"composing", "course", "stand", "urgency"},
    {"addressed", "asides", "following", "halfway", "presuming", "remembering", "reporting", "standing"},
    {"advisers", "listening"},
    {"conversation"},
    {"keeping"},
    {"session"},
    {"ownchart"},
    {"rule_lint", "transcripts", "practice", "importing", "watching", "pictures"},
    {"report"},
    {"terminal"},
    {"__main__"},
]
SAME_ROW_BUT_APART = {"inference", "language", "thermal", "logbook", "rule_lint", "transcripts", "practice",
                      "importing", "watching", "pictures"}
ONLY_IN = {
    "durable_rules_engine": {"inference/engine.py"},
    "durable": set(),
    "prompt_toolkit": {"terminal/"},
    "yaml": {"yamlfile.py", "thermal/", "transcripts/", "rule_lint/", "terminal/"},
    "numpy": {"thermal/", "ownchart/"},  # ownchart: Gaussian updates of some forty stretches
    "sqlalchemy": {"logbook/"},
    "alembic": {"logbook/"},
    "matplotlib": {"pictures/"},
    "jinja2": {"report/"},
    "time": {"clock.py", "terminal/"},
    "datetime": {"clock.py", "rulebook/schema.py", "importing/", "report/", "terminal/"},
}


def modules() -> list[tuple[str, str, ast.Module]]:
    """(path below advisor/, name of the top-level module, syntax tree) of every file."""
    found = []
    for path in sorted(ADVISOR.rglob("*.py")):
        below = path.relative_to(ADVISOR)
        if below.parts[0] != "_rules" and below.name != "__init__.py" or len(below.parts) > 1:
            found.append((str(below), below.parts[0].removesuffix(".py"), ast.parse(path.read_text())))
    return found


def imports(tree: ast.Module) -> set[str]:
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return names


def row_of(module: str) -> int:
    return next(number for number, row in enumerate(ROWS) if module in row)


def test_every_module_has_a_row():
    placed = set().union(*ROWS)
    assert not {module for _, module, _ in modules()} - placed


def test_imports_run_one_way():
    wrong = []
    for path, module, tree in modules():
        for name in imports(tree):
            parts = name.split(".")
            if parts[0] != "advisor" or len(parts) < 2 or parts[1] == module:
                continue
            apart = {module, parts[1]} <= SAME_ROW_BUT_APART and row_of(module) == row_of(parts[1])
            if row_of(parts[1]) > row_of(module) or apart:
                wrong.append(f"{path} imports {name}")
    assert wrong == []


def test_libraries_stay_where_they_belong():
    wrong = []
    for path, _, tree in modules():
        for name in imports(tree):
            allowed = ONLY_IN.get(name.split(".")[0])
            if allowed is not None and not any(path == place or place.endswith("/") and path.startswith(place)
                                               for place in allowed):
                wrong.append(f"{path} imports {name}")
    assert wrong == []


def test_only_the_terminal_prints():
    wrong = []
    for path, module, tree in modules():
        calls = {node.func.id for node in ast.walk(tree)
                 if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
        if module not in ("terminal", "__main__") and calls & {"print", "input"}:
            wrong.append(path)
    assert wrong == []


def test_physics_knows_no_rules():
    wrong = [path for path, module, tree in modules() if module == "thermal"
             and any(name.startswith("advisor.") and name.split(".")[1] not in ("thermal", "errors", "units")
                     for name in imports(tree))]
    assert wrong == []


def test_what_a_dome_answers_is_arithmetic_alone():
    """Airway and response know no facts, no rules and no cooker; record knows the cook's own words and no rules."""
    needed = {module: {name.split(".")[1] for name in imports(tree) if name.startswith("advisor.")}
              for _, module, tree in modules() if module in ("airway", "response", "record")}
    assert needed["airway"] == needed["response"] == set()
    assert not needed["record"] & {"rulebook", "ventchart", "steering", "derivation", "inference", "thermal"}
