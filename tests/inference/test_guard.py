"""The guard: each pattern on which the matcher crashes, hangs or lies is refused, and just below the limit is not."""

import pytest

from advisor.errors import InferenceError
from advisor.inference.engine import Engine
from advisor.inference.guard import (
    LONGEST_WORD,
    MOST_AT_ONCE,
    MOST_IDENTICAL,
    MOST_KINDS,
    MOST_PATTERNS,
    MOST_PRODUCTIONS,
    MOST_SALIENCE,
    check_patterns,
)
from advisor.inference.patterns import Pattern, Production
from advisor.inference.patterns import Test as Comparison

TRUE = (Comparison("b", "==", True),)


def rule(name: str, *patterns: Pattern, salience: int = 1) -> Production:
    return Production(name, salience, patterns or (Pattern(f"kind-{name}", TRUE),))


def bounds(kind: str, number: int) -> list[Production]:
    return [rule(f"r{n}", Pattern(kind, (Comparison("n", ">=", float(n)),))) for n in range(number)]


@pytest.mark.parametrize(("at_limit", "beyond", "says"), [
    ([rule("r", *(Pattern(f"k{n}", TRUE) for n in range(MOST_PATTERNS)))],
     [rule("r", *(Pattern(f"k{n}", TRUE) for n in range(MOST_PATTERNS + 1)))], "r has 8 conditions"),
    ([rule(f"r{n}", Pattern("k", TRUE)) for n in range(MOST_IDENTICAL)],
     [rule(f"r{n}", Pattern("k", TRUE)) for n in range(MOST_IDENTICAL + 1)], "the condition on k has 251 rules sharing it"),
    ([rule(str(n)) for n in range(MOST_KINDS)], [rule(str(n)) for n in range(MOST_KINDS + 1)], "481 facts in conditions"),
    (bounds("k", MOST_AT_ONCE), bounds("k", MOST_AT_ONCE + 1), "the fact k has 61 different bounds"),
    ([rule("r", salience=MOST_SALIENCE)], [rule("r", salience=MOST_SALIENCE + 1)], "60001 as salience"),
    ([rule("r", Pattern("k", (Comparison("s", "==", "x" * LONGEST_WORD),)))],
     [rule("r", Pattern("k", (Comparison("s", "==", "x" * (LONGEST_WORD + 1)),)))], "a word of 4001 letters"),
])
def test_a_limit(at_limit, beyond, says):
    check_patterns(at_limit)
    with pytest.raises(InferenceError, match=says):
        check_patterns(beyond)


def test_too_many_rules():
    with pytest.raises(InferenceError, match=f"{MOST_PRODUCTIONS + 1} rules"):
        check_patterns(rule(f"r{n}", Pattern(f"k{n % 50}", TRUE)) for n in range(MOST_PRODUCTIONS + 1))


def test_a_rule_without_conditions():
    with pytest.raises(InferenceError, match="r has no condition that must hold, it would fire for ever"):
        check_patterns([Production("r", 1, ())])


def test_names_the_matcher_can_not_tell_apart():
    with pytest.raises(InferenceError, match="look alike to the matcher"):
        check_patterns([rule("a", Pattern("1aa9", TRUE)), rule("b", Pattern("25054", TRUE))])


def test_words_of_one_fact_count_once():
    check_patterns([rule(f"r{n}", Pattern("k", (Comparison("s", "==", f"word{n}"),))) for n in range(MOST_AT_ONCE * 2)])


@pytest.mark.parametrize("made", [bounds("k", MOST_AT_ONCE), [rule(str(n)) for n in range(MOST_KINDS)],
                                  [rule(f"r{n}", Pattern("k", TRUE)) for n in range(MOST_IDENTICAL)]])
def test_the_engine_really_runs_at_the_limit(made):
    fired = []
    Engine(made).run([("k", 1e5), ("k", True), ("kind-7", True)], lambda name: fired.append(name) or [])
    assert fired
