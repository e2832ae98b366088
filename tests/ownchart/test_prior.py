"""What is believed before a cook: between trade and model, wide enough for both."""

import numpy as np
import pytest
from model_middle import middle

from advisor.ownchart.curve import EIGHTY
from advisor.ownchart.draught import level
from advisor.ownchart.prior import KNOTS_F, MODEL, prior
from advisor.ventchart import opening_for


@pytest.mark.parametrize("kind", list(MODEL))
def test_it_lies_between_trade_and_model_and_its_range_holds_both(rulebook, kind):
    trade, before = rulebook.catalogue.vent_chart, prior(rulebook.catalogue.vent_chart, kind)
    for dome, opening in MODEL[kind].items():
        at = KNOTS_F.index(dome)
        ends = sorted((level(opening), level(opening_for(trade, dome))))
        reach = EIGHTY * before.covariance[at, at] ** 0.5
        assert ends[0] - 1e-9 <= before.mean[at] <= ends[1] + 1e-9
        assert before.mean[at] - reach < ends[0] and ends[1] < before.mean[at] + reach


def test_the_covariance_is_one(rulebook):
    covariance = prior(rulebook.catalogue.vent_chart).covariance
    assert covariance == pytest.approx(covariance.T) and np.linalg.eigvalsh(covariance).min() > -1e-9


@pytest.mark.parametrize("kind", ["small", "large"])
def test_the_table_of_the_model_is_what_the_model_says(kind):
    """Thirty cookers instead of two hundred: their median strays by a fifth or so."""
    assert middle(kind, 275.0, 30, 3) == pytest.approx(MODEL[kind][275], rel=0.5)
