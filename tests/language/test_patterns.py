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


def texts_in(data):
    """Every string of nested lists and mappings."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for value in data.values():
            yield from texts_in(value)
    elif isinstance(data, list):
        for value in data:
            yield from texts_in(value)


def test_brackets_hold_one_place_each(lexicon, vocabulary):
    told = [fact.words for fact in vocabulary.told.values() if fact.words]
    patterns = texts_in([told, {key: lexicon.data[key] for key in ("openings", "moods", "intents", "follow_ups", "just_done")}])
    broken = [pattern for pattern in patterns
              if any(part.startswith("(") != part.endswith(")") for part in pattern.split())]
    assert not broken, f"{broken}: a bracket holds one place of a pattern; write (by) (itself) for two"
