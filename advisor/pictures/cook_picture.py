"""The curve of a cook: dome and core over time with the target band, below it both vents, the lid and the advice.

It draws what a CookScene holds and knows nothing of how that came about.
"""

import re
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from io import StringIO
from itertools import pairwise

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, MultipleLocator

from advisor.pictures.canvas import FAINT, FIRST, INK, PAPER, PLAIN, SECOND, Look, sheet, style
from advisor.pictures.spacing import grouped, spread
from advisor.pictures.thinning import Point, broken, thinned

GAP_MIN = 60.0       # a line across a longer silence would be made up
FEW = 60             # so few readings are marked one by one
TICKS = (15, 30, 60, 120, 180, 240, 360, 720, 1440)  # minutes between two times on the axis
LARGER = 3.0         # points by which a title is larger than the text
LETTER_WIDTH = 0.62  # of its height: the mean letter of the font, a little more for safety
LINE = 1.35          # height of a line beside that of its letters
LANES = {"height_ratios": (6.0, 1.0, 1.0, 0.85)}
TOP_VENT, BOTTOM_VENT, BAND = FIRST, SECOND, "#ece7dc"


@dataclass(frozen=True, slots=True)
class CookScene:
    """What there is to draw. Times in minutes of the cook, temperatures in `degrees`, openings 0..1.

    vents: name -> (from, to, opening); visits: when vents were moved, numbered from 1; lids, burps, advice: when;
    marks: (letter, minute); starts_at: minutes since midnight at minute 0; below: paragraphs under the picture.
    """

    title: str
    length_min: float
    starts_at: float = 0.0
    degrees: str = "°F"
    measured_at: str = "dome"
    dome: Sequence[Point] = ()
    core: Sequence[Point] = ()
    band: tuple[float, float] | None = None
    vents: dict[str, Sequence[tuple[float, float, float]]] | None = None
    visits: Sequence[float] = ()
    lids: Sequence[float] = ()
    burps: Sequence[float] = ()
    advice: Sequence[float] = ()
    marks: Sequence[tuple[str, float]] = ()
    below: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Size:
    """A sheet in inches, the width of its plot in points, the size of its letters."""

    width_in: float
    height_in: float
    plot_pt: float
    letters: float

    def characters(self, larger: float) -> int:
        """How many letters of the text, `larger` points larger, go into a line of the sheet."""
        return int(72 * self.width_in / (LETTER_WIDTH * (self.letters + larger)))


WIDE = Size(11.0, 7.0, 700.0, 11.0)
NARROW = Size(4.1, 6.2, 230.0, 9.0)


def draw(scene: CookScene, size: Size = WIDE, titled: bool = True) -> Figure:
    """The picture as a figure, to be written by canvas.write or turned into markup."""
    below = [line for paragraph in scene.below for line in textwrap.wrap(paragraph, size.characters(0.0)) or [""]]
    with style():
        figure = sheet(size.width_in, size.height_in + len(below) * LINE * size.letters / 72)
        curve, top, bottom, events = figure.subplots(4, 1, sharex=True, gridspec_kw=LANES)
        if titled:
            figure.suptitle(textwrap.fill(scene.title, size.characters(LARGER)), x=0.01, ha="left",
                            fontsize=size.letters + LARGER, fontweight="bold", color=INK, parse_math=False)
        _curve(curve, scene, size)
        _lane(top, scene, "top", TOP_VENT, size)
        _lane(bottom, scene, "bottom", BOTTOM_VENT, size)
        _visits(top, scene, size)
        _events(events, scene, size)
        _times(events, scene, size)
        figure.align_ylabels()
        if below:
            figure.supxlabel("\n".join(below), x=0.01, ha="left", fontsize=size.letters, color=INK, linespacing=LINE,
                             parse_math=False)
    return figure


def markup(figure: Figure, name: str) -> str:
    """The figure as an <svg> element to stand inside a page, ids made its own by `name`, hidden from screen readers."""
    out = StringIO()
    with style():
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    svg = re.sub(r"<metadata>.*?</metadata>\s*", "", out.getvalue()[out.getvalue().index("<svg"):], flags=re.DOTALL)
    svg = re.sub(r'(\bid="|url\(#|href="#)', rf"\g<1>{name}-", svg)
    svg = re.sub(r'xlink:href', "href", svg)
    return re.sub(r"<svg[^>]*(viewBox=\"[^\"]*\")[^>]*>", r'<svg \1 aria-hidden="true" focusable="false">', svg, count=1)


def _curve(axes: Axes, scene: CookScene, size: Size) -> None:
    axes.set_ylabel(scene.degrees, fontsize=size.letters, rotation=0)
    axes.tick_params(labelsize=size.letters - 1)
    if scene.band:
        axes.axhspan(*scene.band, facecolor=BAND, edgecolor=FAINT, hatch="//", linewidth=0.8, label="target band",
                     zorder=0.5)
    _line(axes, scene.dome, FIRST, scene.measured_at, size)
    _line(axes, scene.core, SECOND, "core of the food", size)
    values = [value for _, value in (*scene.dome, *scene.core)] + list(scene.band or ())
    if values:
        room = 0.08 * (max(values) - min(values)) + 2.0
        axes.set_ylim(min(values) - room, max(values) + 2.6 * room)
    else:
        axes.set_yticks([])
        axes.text(0.5, 0.5, "no reading was told", transform=axes.transAxes, ha="center", fontsize=size.letters)
    if axes.get_legend_handles_labels()[1]:
        axes.legend(loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=3, fontsize=size.letters - 1, borderaxespad=0.2,
                    handlelength=2.2, columnspacing=1.2)
    _marks(axes, scene, size)


def _line(axes: Axes, points: Sequence[Point], look: Look, label: str, size: Size) -> None:
    """A curve without peaks lost; bold where it is known, a faint dotted line across a silence."""
    pieces = [thinned(piece, int(size.plot_pt)) for piece in broken(points, GAP_MIN)]
    width = look.width * size.letters / WIDE.letters
    for number, piece in enumerate(pieces):
        x, y = zip(*piece, strict=True)
        axes.plot(x, y, **(look.line() | {"linewidth": width}), label=None if number else label, zorder=3)
        if len(points) <= FEW or len(piece) == 1:
            axes.plot(x, y, **(look.points() | {"markersize": size.letters / 2.2, "markeredgewidth": 1.2}), zorder=3)
    for before, after in pairwise(pieces):
        axes.plot(*zip(before[-1], after[0], strict=True), color=FAINT, linestyle=(0, (1, 3)), linewidth=1.4, zorder=2)


def _marks(axes: Axes, scene: CookScene, size: Size) -> None:
    """The letters of the lessons along the top, each with a line down to its minute."""
    marks = sorted(scene.marks, key=lambda mark: mark[1])
    per_pt = max(scene.length_min, 1.0) / size.plot_pt
    places = spread([minute for _, minute in marks], 2.2 * size.letters * per_pt, 0.0, scene.length_min)
    bottom, top = axes.get_ylim()
    bend = top - 0.11 * (top - bottom)
    for (letter, minute), place in zip(marks, places, strict=True):
        axes.plot((place, minute, minute), (top, bend, bottom), **(PLAIN.line() | {"linewidth": 0.9}), zorder=2.5,
                  scaley=False)
        axes.text(place, top, letter, ha="center", va="top", fontsize=size.letters, fontweight="bold", color=PAPER,
                  zorder=5, bbox={"boxstyle": "circle,pad=0.25", "facecolor": INK, "edgecolor": PAPER})


def _lane(axes: Axes, scene: CookScene, vent: str, look: Look, size: Size) -> None:
    """How far a vent stood open: by the root, as the small openings are those that matter."""
    for start, end, opening in (scene.vents or {}).get(vent, ()):
        axes.fill_between((start, end), 0.0, opening ** 0.5, facecolor=look.colour, alpha=0.35, linewidth=0)
        axes.plot((start, end), (opening ** 0.5,) * 2, color=look.colour, linewidth=2.0, solid_capstyle="butt")
    if not (scene.vents or {}).get(vent):
        axes.text(0.5, 0.45, "not told", transform=axes.transAxes, ha="center", va="center",
                  fontsize=size.letters - 1, color=INK, bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1.5})
    axes.set_ylim(0.0, 1.08)
    axes.set_yticks((0.0, 0.5, 1.0), ("shut", "¼", "wide"), fontsize=size.letters - 2)
    axes.set_ylabel(f"{vent}\nvent", fontsize=size.letters - 1)


def _visits(axes: Axes, scene: CookScene, size: Size) -> None:
    """A tick for every visit to the vents, with its number, or from - to where numbers would touch."""
    per_pt = max(scene.length_min, 1.0) / size.plot_pt
    for minute in scene.visits:
        axes.plot((minute, minute), (1.1, 1.25), color=INK, linewidth=1.0, clip_on=False)
    for first, last, middle in grouped(scene.visits, 1.9 * size.letters * per_pt):
        label = f"{first}" if first == last else f"{first}–{last}"
        axes.text(middle, 1.3, label, ha="center", va="bottom", fontsize=size.letters - 1, color=INK, clip_on=False)


def _events(axes: Axes, scene: CookScene, size: Size) -> None:
    """Lid and advice, each a row of marks; a burp is hollow."""
    for minutes, row, filled in ((scene.lids, 1.0, INK), (scene.burps, 1.0, PAPER), (scene.advice, 0.0, FAINT)):
        if not minutes:
            continue
        marker = "^" if row else "s"
        axes.plot(minutes, [row] * len(minutes), linestyle="none", marker=marker, markersize=size.letters * 0.6,
                  markerfacecolor=filled, markeredgecolor=INK, markeredgewidth=0.9, clip_on=False)
    axes.set_ylim(-0.6, 1.6)
    axes.set_yticks((0.0, 1.0), ("advice", "lid"), fontsize=size.letters - 1)


def _times(axes: Axes, scene: CookScene, size: Size) -> None:
    """Times of day along the bottom, on round hours."""
    length = max(scene.length_min, 1.0)
    most = size.plot_pt / (4.4 * size.letters)
    step = next((tick for tick in TICKS if length / tick <= most), TICKS[-1])
    axes.set_xlim(-0.01 * length, 1.01 * length)
    axes.xaxis.set_major_locator(MultipleLocator(step, offset=-scene.starts_at % step))
    axes.xaxis.set_major_formatter(FuncFormatter(lambda minute, _: _clock(minute + scene.starts_at)))
    axes.tick_params(axis="x", labelsize=size.letters - 1)


def _clock(minutes: float) -> str:
    whole = round(minutes) % 1440
    return f"{whole // 60:02d}:{whole % 60:02d}"
