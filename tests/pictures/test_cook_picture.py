"""The picture of a cook: every peak kept, labels apart, everything told drawn, odd cooks and odd names survived."""

import random
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.pictures.canvas import write
from advisor.pictures.cook_picture import NARROW, WIDE, CookScene, draw, markup
from advisor.pictures.spacing import grouped, spread
from advisor.pictures.thinning import broken, thinned

SCENE = CookScene(
    title="A cook", length_min=120.0, starts_at=370.0, dome=[(0, 70), (40, 250), (120, 240)], core=[(30, 40), (120, 160)],
    band=(235, 265), vents={"top": [(0, 40, 1.0), (40, 120, 0.1)], "bottom": [(0, 120, 0.25)]}, visits=[40.0, 41.0, 90.0],
    lids=[30.0], burps=[50.0], advice=[39.0], marks=[("A", 40.0), ("B", 41.0)])


def test_thinning_keeps_every_peak():
    numbers = random.Random(3)
    points = [(n / 60, numbers.gauss(250, 5)) for n in range(50_000)]
    points[12_345] = (points[12_345][0], 400.0)
    points[40_000] = (points[40_000][0], 20.0)
    kept = thinned(points, 700)
    assert len(kept) <= 4 * 701 and kept == sorted(kept)
    assert points[12_345] in kept and points[40_000] in kept and kept[0] == points[0] and kept[-1] == points[-1]


@given(st.lists(st.tuples(st.floats(0, 1e4), st.floats(-60, 1300)), min_size=1, max_size=300), st.integers(1, 20))
def test_thinning_never_loses_the_highest_or_invents_a_point(points, slots):
    points.sort()
    kept = thinned(points, slots)
    assert set(kept) <= set(points)
    assert {max(v for _, v in kept), min(v for _, v in kept)} == {max(v for _, v in points), min(v for _, v in points)}


def test_the_line_breaks_over_a_long_silence():
    assert broken([(0, 1), (10, 2), (90, 3)], 60) == [[(0, 1), (10, 2)], [(90, 3)]]
    assert broken([], 60) == []


@given(st.lists(st.floats(0, 1000), max_size=60).map(sorted), st.floats(1, 60))
def test_labels_of_visits_never_touch_and_none_is_lost(places, width):
    groups = grouped(places, width)
    assert [n for first, last, _ in groups for n in range(first, last + 1)] == list(range(1, len(places) + 1))
    widths = [width if first == last else 2 * width for first, last, _ in groups]
    for (a, b), (one, other) in zip(pairwise(groups), pairwise(widths), strict=True):
        assert b[2] - a[2] >= (one + other) / 2 - 1e-9


def test_letters_move_apart_and_stay_on_the_sheet():
    assert spread([10, 11, 50], 5, 0, 100) == [10, 15, 50]
    assert spread([97, 98, 99], 5, 0, 100) == [90, 95, 100]
    assert spread([], 5, 0, 100) == []


def test_all_that_was_told_is_drawn():
    axes = draw(SCENE).axes
    words = [text.get_text() for part in axes for text in part.texts] + [
        text.get_text() for text in axes[0].get_legend().get_texts()]
    assert {"A", "B", "target band", "dome", "core of the food", "1–2", "3"} <= set(words)
    ticks = [label.get_text() for label in axes[3].get_xticklabels()]
    assert "06:30" in ticks and "07:00" in ticks


@pytest.mark.filterwarnings("ignore:Glyph")
@pytest.mark.parametrize("size", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize("scene", [
    CookScene(title="", length_min=0.0),
    CookScene(title="One", length_min=30.0, dome=[(10, 250)]),
    replace(SCENE, band=None, vents=None, visits=[], lids=[], burps=[], advice=[], marks=[]),
    replace(SCENE, title="$\\frac{1$ <b>&</b> \U0001f525 $x", below=["$\\broken{", "", "plain"]),
    replace(SCENE, length_min=3000.0, dome=[(0, 250), (3000, 250)]),
], ids=["empty", "one reading", "no target", "odd names", "two days"])
def test_odd_cooks_are_drawn_too(tmp_path, scene, size):
    write(draw(scene, size), tmp_path / "cook.png", scene.title)
    assert (tmp_path / "cook.png").stat().st_size > 5000


def test_the_markup_stands_inside_a_page_twice():
    one, other = markup(draw(SCENE), "a"), markup(draw(SCENE), "b")
    assert one.startswith("<svg viewBox=") and one.rstrip().endswith("</svg>")
    assert "metadata" not in one and "xmlns" not in one and "http" not in one
    assert 'id="a-' in one and 'id="b-' not in one and 'id="b-' in other
    assert one == markup(draw(SCENE), "a")
