"""The notation of the word lists."""

import pytest

from advisor.language.patterns import PatternBook, longest_first
from advisor.language.understanding import read_tokens


def found(lexicon, pattern, words):
    return [
        (match.start, match.end)
        for match in longest_first(PatternBook([(pattern, "x")]).find(read_tokens(words, lexicon)))
    ]


@pytest.mark.parametrize(
    ("pattern", "words", "places"),
    [
        ("white smoke", "some white smoke", [(1, 3)]),
        ("white/grey smoke", "grey smoke", [(0, 2)]),
        ("smoke (be) white", "smoke is white", [(0, 3)]),
        ("smoke (be) white", "smoke white", [(0, 2)]),
        ("smoke ... white", "smoke is now quite white", [(0, 5)]),
        ("smoke ... white", "smoke, white", []),
        ("smoke ... white", "smoke is not white", []),
        ("^ done", "done now", [(0, 1)]),
        ("^ done", "well done", []),
        ("steady $", "holding steady", [(1, 2)]),
        ("steady $", "steady climb", []),
        ("lit <ago>", "lit 10 min ago", [(0, 2)]),
        ("at <figure>", "at 350", [(0, 2)]),
        ("open lid", "opened lid", [(0, 2)]),
    ],
)
def test_a_pattern_fits_what_it_says(lexicon, pattern, words, places):
    assert found(lexicon, pattern, words) == places


def test_every_word_list_of_the_vocabulary_is_of_patterns(vocabulary):
    for name, fact in vocabulary.told.items():
        lists = fact.words.values() if isinstance(fact.words, dict) else [fact.words or []]
        for patterns in lists:
            assert all(isinstance(pattern, str) and pattern.strip() for pattern in patterns), name


def test_values_of_word_lists_are_values_of_the_fact(vocabulary):
    for name, fact in vocabulary.told.items():
        for value in fact.words if isinstance(fact.words, dict) else ():
            if value not in ("figure", "event"):
                assert fact.check(name, value) == value, (name, value)


def test_misspellings_are_mended_and_common_words_are_not(lexicon):
    words = " ".join(
        token.text
        for token in read_tokens("thermomter botom brisktet driving meet house sooo hooot", lexicon)
    )
    assert words == "thermometer bottom brisket driving meet house so hot"
