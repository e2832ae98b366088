"""Weights, effective size and quantiles of the ensemble."""

import numpy as np
import pytest

from advisor.thermal import weighing


def test_equal_members_weigh_the_same():
    w = weighing.weights(np.zeros(10))
    assert w == pytest.approx(np.full(10, 0.1))
    assert weighing.effective_size(w) == pytest.approx(10.0)


def test_one_member_alone_counts_as_one():
    assert weighing.effective_size(np.array([1.0, 0.0, 0.0])) == 1.0


def test_weights_are_flattened_rather_than_left_to_one_member():
    w = weighing.weights(np.concatenate([[0.0], np.full(99, -500.0)]))
    assert weighing.effective_size(w) >= 10.0
    assert w.argmax() == 0


def test_nearer_members_weigh_more():
    misses = np.array([[0.0, 5.0, 30.0], [1.0, 6.0, 40.0]])
    w = weighing.weights(weighing.log_likelihood(misses, np.array([4.0, 5.0])))
    assert w[0] > w[1] > w[2]


def test_no_readings_say_nothing():
    none = np.zeros((0, 4))
    assert weighing.log_likelihood(none, np.zeros(0)).tolist() == [0.0] * 4
    assert not weighing.contradicted(none, np.zeros(0))


def test_many_readings_count_as_a_few():
    one = weighing.log_likelihood(np.full((5, 1), 8.0), np.full(5, 4.0))
    many = weighing.log_likelihood(np.full((50, 1), 8.0), np.full(50, 4.0))
    assert many == pytest.approx(one)


def test_contradiction_needs_every_member_far_off():
    sd = np.array([5.0, 5.0])
    assert weighing.contradicted(np.array([[60.0, 50.0], [70.0, 55.0]]), sd)
    assert not weighing.contradicted(np.array([[60.0, 3.0], [70.0, 4.0]]), sd)


def test_model_error_grows_with_time_since_the_start():
    sd = weighing.deviations(np.array([0.0, 10.0, 40.0]))
    assert sd[0] == weighing.READING_SD and sd[0] < sd[1] < sd[2]


def test_quantiles_of_equal_weights_are_plain_ones():
    values = np.arange(101.0)
    w = np.full(101, 1 / 101)
    for share in (0.1, 0.5, 0.9):
        assert weighing.quantile(values, w, share) == pytest.approx(100.0 * share, abs=1.0)


def test_quantiles_follow_the_weights_and_know_never():
    values = np.array([1.0, 2.0, np.inf])
    assert weighing.quantile(values, np.array([0.0, 1.0, 0.0]), 0.5) == 2.0
    assert weighing.quantile(values, np.array([0.2, 0.2, 0.6]), 0.9) == np.inf


def test_resampling_keeps_the_shares():
    picked = weighing.systematic(np.array([0.5, 0.25, 0.25]), 8)
    assert np.bincount(picked).tolist() == [4, 2, 2]
