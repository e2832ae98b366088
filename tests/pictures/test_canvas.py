"""The style of pictures: readable without colour and on paper, no trace left in matplotlib, the same bytes each time."""

from itertools import combinations

import matplotlib
import pytest

from advisor.pictures import canvas

LOOKS = (canvas.FIRST, canvas.SECOND, canvas.THIRD, canvas.FOURTH, canvas.PLAIN)


def luminance(colour: str) -> float:
    """Relative luminance of "#rrggbb" as WCAG 2 defines it."""
    parts = [int(colour[at:at + 2], 16) / 255.0 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def drawn():
    with canvas.style():
        figure = canvas.sheet(4, 3)
        axes = figure.add_subplot()
        axes.plot([225, 275], [0.1, 0.2], **canvas.FIRST.line())
        axes.plot([225, 275], [0.1, 0.2], **canvas.FIRST.points())
        canvas.celsius_beside(axes, "x")
    return figure


def test_looks_differ_without_their_colour():
    for one, other in combinations(LOOKS, 2):
        assert one.dash != other.dash and one.marker != other.marker


@pytest.mark.parametrize("colour", [canvas.INK, canvas.FAINT])
def test_text_stands_out_from_the_paper(colour):
    assert contrast(colour, canvas.PAPER) >= 4.5


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.marker)
def test_lines_stand_out_from_the_paper(look):
    assert contrast(look.colour, canvas.PAPER) >= 3.0


@pytest.mark.parametrize("kind, begins", [("png", b"\x89PNG"), ("svg", b"<?xml")])
def test_the_same_figure_gives_the_same_bytes(tmp_path, kind, begins):
    one, other = tmp_path / f"one.{kind}", tmp_path / f"other.{kind}"
    canvas.write(drawn(), one, "A chart")
    canvas.write(drawn(), other, "A chart")
    assert one.read_bytes() == other.read_bytes()
    assert one.read_bytes().startswith(begins) and b"A chart" in one.read_bytes()


def test_another_ending_and_a_missing_folder_are_refused(tmp_path):
    with pytest.raises(canvas.PictureError, match="neither .png nor .svg"):
        canvas.write(drawn(), tmp_path / "chart.pdf", "A chart")
    with pytest.raises(canvas.PictureError, match="cannot be written"):
        canvas.write(drawn(), tmp_path / "nowhere" / "chart.png", "A chart")


def test_nothing_is_left_behind_in_matplotlib():
    before = dict(matplotlib.rcParams)
    drawn()
    assert dict(matplotlib.rcParams) == before
