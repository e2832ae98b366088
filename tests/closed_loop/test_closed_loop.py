"""The short version of run.py: two kinds of trouble, two cookers each, the advice against the recipe of the trade."""

import sys
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))

import run


@pytest.fixture(scope="module", params=["well over, soaked walls", "vents too tight"])
def found(request):
    return run.episode(request.param, 2, 1.0, 5, ("advised", "alone", "recipe"), "large")


def test_no_fire_is_lost_and_the_advice_beats_leaving_it_alone(found):
    assert found["advised"].lost.sum() <= found["alone"].lost.sum()
    assert np.median(found["advised"].degree_hours) < np.median(found["alone"].degree_hours)


def test_the_dome_ends_nearer_the_target_than_it_started(found):
    ends = found["paths"][run.MINUTES - 20:run.MINUTES].mean(axis=0) - found["target_f"]
    assert np.median(np.abs(ends)) < np.median(np.abs(found["start"]))


def test_it_never_chases(found):
    """A move or two at a time, then at least five minutes by themselves."""
    for talk in found["talks"]:
        done = [minute for minute, line, _ in talk if "done" in line]
        assert all(later - earlier >= 5 for earlier, later in pairwise(done) if later > earlier)
