"""The engine: a pure function of the facts given, thousands of times over, from several threads, loops ended."""

import resource
from concurrent.futures import ThreadPoolExecutor

import pytest

from advisor.errors import InferenceError
from advisor.inference.engine import Engine
from advisor.inference.patterns import Pattern, Production
from advisor.inference.patterns import Test as Comparison

HOT = Production("hot", 1, (Pattern("dome_f", (Comparison("n", ">=", 300.0),)),))
OPEN = Production("open", 2, (Pattern("dome_f", (Comparison("n", ">=", 300.0),)), Pattern("lid_open", (Comparison("b", "==", True),))))
WHITE = Production("white", 1, (Pattern("smoke", (Comparison("s", "==", "white"),)),))
ENGINE = Engine([HOT, OPEN, WHITE])


def fired(*facts, engine=ENGINE, concluded=None) -> list[str]:
    names: list[str] = []

    def fire(name: str):
        names.append(name)
        return (concluded or {}).get(name, [])

    engine.run(facts, fire)
    return names


def test_what_holds_fires_and_what_does_not_stays_silent():
    assert fired(("dome_f", 300.0), ("lid_open", False)) == ["hot"]
    assert fired(("dome_f", 299.9999)) == []
    assert fired(("smoke", "white"), ("smoke", "black")) == ["white"]
    assert fired() == []


def test_lower_salience_fires_first():
    assert fired(("lid_open", True), ("dome_f", 350.0)) == ["hot", "open"]


def test_facts_nobody_asks_about_are_no_error():
    assert fired(("altitude_ft", 5000.0), ("cooker", "the big one \u00e9 \"quoted\"\n")) == []


def test_the_same_facts_twice_in_one_run_and_in_two():
    assert fired(("dome_f", 300.0), ("dome_f", 300.0)).count("hot") >= 1
    assert fired(("dome_f", 300.0)) == fired(("dome_f", 300.0))


def test_nothing_is_left_over_from_the_run_before():
    fired(("dome_f", 400.0), ("lid_open", True))
    assert fired(("lid_open", True)) == []


def test_conclusions_are_matched_in_the_same_run():
    assert fired(("smoke", "white"), ("lid_open", True), concluded={"white": [("dome_f", 320.0)]}) == ["white", "hot", "open"]


@pytest.mark.parametrize("value", [1e-05, -0.0, 1e15, 0.00004, -459.67, 12345678.9])
def test_numbers_of_any_size_are_compared_rightly(value):
    engine = Engine([Production("r", 1, (Pattern("n", (Comparison("n", ">=", 0.0), Comparison("n", "<=", 1e6))),))])
    assert fired(("n", value), engine=engine) == (["r"] if 0 <= round(value, 4) <= 1e6 else [])


def test_true_is_not_one_and_not_a_word():
    engine = Engine([Production("r", 1, (Pattern("x", (Comparison("b", "==", True),)),))])
    assert fired(("x", 1.0), ("x", "true"), engine=engine) == []


def test_a_join_whose_last_test_is_false_does_not_end_the_process():
    for _ in range(50):
        assert fired(("dome_f", 300.0), ("lid_open", False)) == ["hot"]


def test_rules_that_feed_one_another_for_ever_end_in_an_error_and_leave_the_engine_whole():
    engine = Engine([Production("loop", 1, (Pattern("n", (Comparison("n", ">=", 0.0),)),))])
    with pytest.raises(InferenceError, match="they feed one another in a circle"):
        engine.run([("n", 1.0)], lambda name: [("n", 1.0)])
    assert fired(("n", 1.0), engine=engine) == ["loop"]


def test_an_error_while_firing_comes_out_and_leaves_the_engine_whole():
    def burst(name: str):
        raise KeyError(name)

    with pytest.raises(KeyError, match="hot"):
        ENGINE.run([("dome_f", 300.0)], burst)
    assert fired(("dome_f", 300.0)) == ["hot"]


def test_thousands_of_runs_do_not_grow_the_memory():
    facts = [("dome_f", 320.0), ("lid_open", True), ("smoke", "white")]
    for _ in range(500):
        fired(*facts)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for _ in range(5000):
        fired(*facts)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 2_000  # kilobytes on Linux


def test_threads_get_the_same_as_one_after_another():
    def ask(number: int) -> list[str]:
        return fired(("dome_f", 290.0 + number % 20), ("lid_open", number % 2 == 0), ("smoke", "white"))

    alone = [ask(number) for number in range(200)]
    with ThreadPoolExecutor(8) as pool:
        assert list(pool.map(ask, range(200))) == alone


def test_many_engines_live_side_by_side():
    engines = [Engine([HOT]) for _ in range(30)]
    assert all(fired(("dome_f", 301.0), engine=engine) == ["hot"] for engine in engines)
