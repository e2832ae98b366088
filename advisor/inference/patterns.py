"""What the matcher is asked to match: productions of patterns of tests. Data only; knows no engine."""

from dataclasses import dataclass

from advisor.facts import Value


@dataclass(frozen=True, slots=True)
class Test:
    """One comparison inside a pattern; field is n (number), s (word) or b (flag)."""

    field: str
    operator: str
    constant: Value


@dataclass(frozen=True, slots=True)
class Pattern:
    """One fact a production needs: its kind (the fact's name) and the tests on it."""

    kind: str
    tests: tuple[Test, ...]


@dataclass(frozen=True, slots=True)
class Production:
    """One conjunctive rule as the matcher sees it. Lower salience fires first."""

    name: str
    salience: int
    patterns: tuple[Pattern, ...]


def field_of(value: Value | None) -> str:
    """Which field of an engine fact carries a value of this type."""
    if isinstance(value, bool):
        return "b"
    return "n" if isinstance(value, float) else "s"
