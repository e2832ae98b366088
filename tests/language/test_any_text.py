"""No text whatever raises, and none is slow."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.language.heard import Context
from advisor.language.normalise import LONGEST_READ
from advisor.language.understanding import hear
from tests.language.conftest import VOCABULARY

WORDS = st.sampled_from(
    [
        "350",
        "the",
        "fire",
        "is",
        "out",
        "no",
        "not",
        "250f",
        "110c",
        "half",
        "past",
        "1/2",
        "between",
        "and",
        "want",
        "-",
        "/",
        "°",
        "lid",
        "open",
        "both",
        "shut",
        "top",
        "bottom",
        "3-2-1",
        "20",
        "min",
        "ago",
        "at",
        "6:50",
        "now",
        "?",
        ",",
        ".",
        "!",
        "what",
        "if",
        "why",
        "celsius",
        "sorry",
        "meant",
        "one",
        "two",
        "hundred",
        "fifty",
        "inch",
        "kg",
        "%",
        "to",
        "from",
        "was",
        "#",
        "number",
        "1e999",
        "\x00",
        "🔥",
    ]
)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=200))
def test_any_characters(text):
    hear(text, VOCABULARY)


@settings(max_examples=300, deadline=None)
@given(st.lists(WORDS, max_size=25), st.sampled_from([None, *sorted(VOCABULARY.askable)]))
def test_any_order_of_the_words_of_the_trade(words, asked):
    heard = hear(
        " ".join(words), VOCABULARY, Context(asked=asked, facts={"dome_f": 350.0, "target_f": 230.0})
    )
    for name, value in heard.facts.items():
        assert VOCABULARY.check(name, value) == value


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "\0\0",
        "🔥",
        "\u202e350\u202c",
        "a" * 10_000,
        "250 " * 2500,
        "smoke " * 1700,
        "between " * 1250,
        "1/" * 5000,
        "not " * 2500,
        "'" * 10_000,
        "½" * 10_000,
        "ﷺ" * 10_000,
        "grease fire " * 800,
    ],
)
def test_odd_and_long_texts(text):
    hear(text, VOCABULARY)


def test_what_stands_early_in_a_long_text_is_heard():
    assert hear("grease fire! " + "bla " * 3000, VOCABULARY).facts["grease_fire"] is True


def test_only_so_much_is_read():
    assert "grease_fire" not in hear("bla " * LONGEST_READ + "grease fire", VOCABULARY).facts
