"""The alarms on a few simulated cooks; tests/benchmarks/bench_watch.py does it with many and prints figures."""

import numpy as np
import pytest
from cooks import SPOILT_AT_MIN, spoilt, steady, vent_left_open, vents_shut_too_far
from judging import false_alarms, warned

from advisor.watching.leaving import BAND_F

FEW, SEED = 6, 12


def test_steady_cooks_are_left_in_peace():
    found, hours = false_alarms(steady(FEW, SEED, 4.0), 5.0, 0.1, 7, range(FEW))
    assert hours > 10.0 and len(found) <= 1


@pytest.mark.parametrize("spoil", [vent_left_open, vents_shut_too_far])
def test_trouble_is_told_before_it_is_there(spoil):
    cooks = spoilt(2 * FEW, SEED, spoil, 100)
    found = warned(spoil.__name__, cooks, 5.0, 0.1, 7, SPOILT_AT_MIN)
    assert (np.abs(cooks.true_f - cooks.target_f) > BAND_F).any() and len(found.before_min) >= 3
    assert found.share() >= 0.7
