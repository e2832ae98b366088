"""The one plain style of all pictures: black on white, thick enough for paper, told apart by shape as well as by colour.

Nothing of charcoal is known here. Figures are made without any global state, so pictures may be drawn in threads.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import matplotlib
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from advisor.errors import DrafthandError
from advisor.units import c_to_f, f_to_c

INK, FAINT, PAPER = "#111111", "#767676", "#ffffff"  # FAINT on PAPER has a contrast of 4.5, the least for small text
FORMATS = ("png", "svg")
DOTS_PER_INCH = 150
STYLE: dict[str, Any] = {
    "font.family": ["DejaVu Sans"], "font.size": 11.0, "axes.titlesize": 14.0, "axes.titleweight": "bold",
    "axes.titlelocation": "left", "axes.titlepad": 12.0, "axes.labelsize": 11.0, "legend.fontsize": 10.0,
    "text.color": INK, "axes.labelcolor": INK, "axes.edgecolor": INK, "xtick.color": INK, "ytick.color": INK,
    "figure.facecolor": PAPER, "axes.facecolor": PAPER, "savefig.facecolor": PAPER, "legend.frameon": False,
    "axes.spines.top": False, "axes.spines.right": False, "axes.linewidth": 1.0, "lines.linewidth": 2.0,
    "axes.grid": True, "grid.color": "#dddddd", "grid.linewidth": 0.8, "axes.axisbelow": True,
    "svg.fonttype": "path", "svg.hashsalt": "drafthand", "hatch.linewidth": 0.8,
}


class PictureError(DrafthandError):
    """A picture that cannot be drawn or written."""


@dataclass(frozen=True, slots=True)
class Look:
    """How one thing is drawn. No two looks share dash or marker, so that they differ without their colour, too."""

    colour: str
    dash: Any = "-"
    marker: str = ""
    width: float = 2.0

    def line(self) -> dict[str, Any]:
        """For Axes.plot."""
        return {"color": self.colour, "linestyle": self.dash, "linewidth": self.width}

    def points(self) -> dict[str, Any]:
        """For Axes.plot: hollow marks, no line."""
        return {"color": self.colour, "linestyle": "none", "marker": self.marker, "markersize": 7.0,
                "markerfacecolor": PAPER, "markeredgewidth": 1.6}


# Colours told apart with every kind of colour vision: Okabe and Ito 2008, from memory; yellow left out, purple darkened.
FIRST = Look("#0072b2", "-", "o", 2.6)
SECOND = Look("#d55e00", (0, (5, 2)), "s")
THIRD = Look("#009e73", (0, (1, 1.4)), "^")
FOURTH = Look("#b0598b", (0, (7, 2, 1.5, 2)), "D")
PLAIN = Look(INK, (0, (3, 3)), "x", 1.4)  # for what is wanted, or usual, beside what is


@contextmanager
def style() -> Iterator[None]:
    """Everything drawn and written inside has the house's look; matplotlib's own settings come back afterwards."""
    logging.getLogger("matplotlib").setLevel(logging.ERROR)  # it grumbles about fonts, where a cook would read it
    with matplotlib.rc_context(STYLE):
        yield


def sheet(width_in: float = 8.0, height_in: float = 5.5, **settings: Any) -> Figure:
    """An empty figure that finds room for its labels itself. settings go to matplotlib's Figure."""
    return Figure(figsize=(width_in, height_in), dpi=DOTS_PER_INCH, **{"layout": "constrained", **settings})


def celsius_beside(axes: Axes, along: str) -> Axes:
    """A second scale in °C for an axis in °F; along: "x" puts it on top, "y" on the right."""
    make, side = (axes.secondary_xaxis, "top") if along == "x" else (axes.secondary_yaxis, "right")
    other = make(side, functions=(f_to_c, c_to_f))
    for spine in other.spines.values():
        spine.set_visible(False)
    getattr(other, f"set_{along}label")("°C", color=FAINT)
    other.tick_params(colors=FAINT, length=0)
    return other


def write(figure: Figure, path: Path, title: str) -> None:
    """The figure as a file, PNG or SVG by its ending; the same figure gives the same bytes. Raises PictureError."""
    kind = path.suffix.lower().lstrip(".")
    if kind not in FORMATS:
        raise PictureError(f"{path.name} ends in neither .png nor .svg", "so the kind of picture is not known",
                           "give the file one of these endings")
    metadata = {"Title": title, "Software": None} if kind == "png" else {"Title": title, "Date": None, "Creator": "drafthand"}
    try:
        with style():
            figure.savefig(path, format=kind, metadata=metadata)
    except OSError as error:
        raise PictureError(f"{path} cannot be written ({error.strerror or error})", "the picture is lost",
                           "choose another place") from None
