"""The update against references: isotonic regression and Gaussian conditioning as SciPy does them; days counted once."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import linalg, optimize, stats

from advisor.ownchart.curve import EIGHTY, EIGHTY_T, TAILS, Seen, learned, update, weights_of
from advisor.ownchart.monotone import never_falling
from advisor.ownchart.prior import KNOTS_F, prior
from advisor.ownchart.stretches import Stretch


@pytest.fixture(scope="module")
def before(rulebook):
    return prior(rulebook.catalogue.vent_chart)


def stretch(dome, level, sd=0.12):
    return Stretch(0.0, 30.0, dome, 0.0, 0.1, level, sd)


def near(before, dome, shift, sd=0.12):
    """A stretch that lies `shift` above the prior's middle."""
    return stretch(dome, float(weights_of(dome) @ before.mean) + shift, sd)


values = st.lists(st.tuples(st.floats(-5, 5), st.floats(0.1, 10)), min_size=1, max_size=30)


@given(values)
def test_isotonic_regression_is_that_of_scipy(pairs):
    y, w = zip(*pairs, strict=True)
    assert never_falling(y, w) == pytest.approx(list(optimize.isotonic_regression(y, weights=w).x), abs=1e-9)


def test_the_update_is_that_of_least_squares_in_information_form(before):
    """Posterior precision = prior precision + A' R^-1 A; the code conditions the other way round."""
    rng = np.random.default_rng(1)
    cooks = [[near(before, rng.uniform(210, 400), rng.normal(0, 0.3), rng.uniform(0.08, 0.3)) for _ in range(3)] for _ in range(4)]
    seen = Seen.of(cooks)
    fit = update(before, seen, seen.variance, np.full(len(seen.level), 0.2 ** 2))
    noise = np.diag(seen.variance) + 0.04 * seen.together
    precision = linalg.inv(before.covariance) + seen.design.T @ linalg.inv(noise) @ seen.design
    covariance = linalg.inv(precision)
    pulled = linalg.inv(before.covariance) @ before.mean + seen.design.T @ linalg.inv(noise) @ seen.level
    assert fit.covariance == pytest.approx(covariance, rel=1e-5, abs=1e-7)
    assert fit.mean == pytest.approx(covariance @ pulled, rel=1e-5)


def test_the_evidence_is_the_density_of_what_was_seen(before):
    seen = Seen.of([[near(before, 250, 0.2), near(before, 300, 0.1)], [near(before, 275, -0.3)]])
    fit = update(before, seen, seen.variance, np.full(3, 0.09))
    spread = seen.design @ before.covariance @ seen.design.T + np.diag(seen.variance) + 0.09 * seen.together
    assert fit.evidence == pytest.approx(stats.multivariate_normal(seen.design @ before.mean, spread).logpdf(seen.level))


def test_the_figures_for_80_percent_are_those_of_the_tables():
    assert EIGHTY == pytest.approx(stats.norm.ppf(0.9), abs=1e-4)
    assert EIGHTY_T == pytest.approx(stats.t.ppf(0.9, TAILS), abs=1e-4)


def test_nothing_seen_leaves_the_prior(before):
    found = learned(before, [[], []])
    assert found.mean == pytest.approx(np.maximum.accumulate(before.mean))


def test_one_cook_makes_nobody_sure_however_long_it_was(before):
    short = learned(before, [[near(before, 275, -0.5)] * 2])
    long = learned(before, [[near(before, 275, -0.5)] * 40])
    many = learned(before, [[near(before, 275, -0.5)] * 4] * 10)
    middle = KNOTS_F.index(275.0)
    assert many.reach[middle] < 0.8 * long.reach[middle] < 0.8 * short.reach[middle] * 1.01


def test_the_level_is_learned_before_the_slope(before):
    found = learned(before, [[near(before, 275, -0.8)]] * 6)
    at, far = KNOTS_F.index(275.0), KNOTS_F.index(400.0)
    assert found.mean[at] - before.mean[at] == pytest.approx(-0.8, abs=0.1)
    assert found.mean[far] < before.mean[far] - 0.4
    assert found.reach[far] > 1.5 * found.reach[at]


def test_an_odd_day_counts_for_less(before):
    usual = [[near(before, 275, -0.5), near(before, 300, -0.5)] for _ in range(6)]
    odd = learned(before, [*usual, [near(before, 275, 1.5), near(before, 300, 1.5)]])
    calm, at = learned(before, usual), KNOTS_F.index(275.0)
    mean_shift = 2.0 / 7.0
    assert abs(odd.mean[at] - calm.mean[at]) < 0.4 * mean_shift


def test_days_that_differ_widen_the_range(before):
    at = KNOTS_F.index(275.0)
    alike = learned(before, [[near(before, 275, 0.02 * (-1) ** k)] * 3 for k in range(10)])
    apart = learned(before, [[near(before, 275, 0.4 * (-1) ** k)] * 3 for k in range(10)])
    assert apart.day_sd > 1.8 * alike.day_sd and apart.reach[at] > 1.5 * alike.reach[at]


@given(st.lists(st.tuples(st.floats(180, 480), st.floats(-1.5, 1.5)), min_size=1, max_size=12))
def test_whatever_is_seen_the_curve_never_falls(before, seen):
    found = learned(before, [[near(before, dome, shift)] for dome, shift in seen])
    low, high = found.band()
    assert all(np.all(np.diff(curve) >= -1e-12) for curve in (found.mean, low, high))
    assert np.all(low <= found.mean + 1e-9) and np.all(found.mean <= high + 1e-9)


def test_order_of_cooks_does_not_matter(before):
    cooks = [[near(before, 250 + 20 * k, 0.1 * k)] for k in range(4)]
    assert learned(before, cooks).mean == pytest.approx(learned(before, cooks[::-1]).mean)


def test_a_stretch_said_to_be_less_sure_counts_for_less(before):
    at = KNOTS_F.index(275.0)
    sure, unsure = (learned(before, [[replace(near(before, 275, 0.6), sd=sd)]]) for sd in (0.1, 0.6))
    assert abs(unsure.mean[at] - before.mean[at]) < abs(sure.mean[at] - before.mean[at])
