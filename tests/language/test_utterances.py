"""The score on files of real-life utterances stays where it is (conventions: head of utterances_examples.yaml)."""

import pytest

from tests.benchmarks.score_utterances import DATA, score_file


@pytest.mark.parametrize(
    ("name", "recall", "precision"),
    [
        ("utterances_examples", 0.99, 0.99),
        ("utterances_a", 0.99, 0.99),
        ("utterances_b", 0.98, 0.99),
        ("utterances_c", 0.98, 0.99),
        ("utterances_d", 0.99, 0.99),
        ("utterances_e1", 0.97, 0.99),
        ("utterances_e2", 0.98, 0.99),
        ("utterances_k", 0.98, 0.99),
        ("utterances_l", 0.98, 0.99),
    ],
)
def test_the_score_keeps_its_floor(vocabulary, name, recall, precision):
    score = score_file(DATA / f"{name}.yaml", vocabulary)
    assert score.recall >= recall, score.misses
    assert score.precision >= precision, score.misses
    assert score.broken == 0, score.misses
