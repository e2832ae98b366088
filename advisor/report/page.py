"""A report as one self-contained HTML page: no script, no link, no font from elsewhere. Everything told is escaped."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from advisor.pictures.cook_picture import NARROW, WIDE, draw, markup
from advisor.report import curve
from advisor.report.report import TONES, Report
from advisor.report.scene import scene_of
from advisor.report.speech import readable

HERE = Path(__file__).parent
NUMBERS_MOST = 30  # rows of the curve in numbers
STEPS_MIN = (5, 10, 15, 30, 60, 120, 240)
NOTHING = "-"


def page(report: Report) -> str:
    """The whole page."""
    story, speech = report.story, report.speech
    scene = scene_of(report)
    wide, narrow = (Markup(markup(draw(scene, size, titled=False), name))
                    for size, name in ((WIDE, "w"), (NARROW, "n")))
    return _template().render(
        title=speech.title(), style=Markup((HERE / "page.css").read_text(encoding="utf-8")), wide=wide, narrow=narrow,
        span=speech.span(), outcome=story.outcome, measured_at=story.measured_at,
        summary=speech.summary(report.phrases), band=report.phrase("band"), burped=any(lid.burp for lid in story.lids),
        lessons=list(_lessons(report)), no_lessons=report.phrase("no_lessons"), rows=report.rows(),
        happenings=[{"at": speech.clock(one.at_min), "kind": one.kind, "says": one.says} for one in report.happenings],
        readings=list(_numbers(report)), closing=report.phrase("closing"))


@cache
def _template() -> Template:
    house = Environment(loader=FileSystemLoader(HERE), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
                        lstrip_blocks=True, finalize=_shown)
    return house.get_template("page.html.j2")


def _shown(value: object) -> object:
    if not isinstance(value, str) or isinstance(value, Markup):
        return value
    return readable(value).replace(" °", "\N{NO-BREAK SPACE}°")


def _lessons(report: Report) -> Iterator[dict[str, str]]:
    for lesson in report.lessons:
        at = "" if lesson.at_min is None else report.speech.clock(lesson.at_min)
        yield {"letter": lesson.letter, "tone": TONES[lesson.tone], "at": at, "says": report.said(lesson)}


def _numbers(report: Report) -> Iterator[tuple[str, str, str]]:
    """(time, dome, core) at even times, for who can't see the curve."""
    story, say = report.story, report.speech.wording.temperature
    step = next((step for step in STEPS_MIN if story.length_min / step <= NUMBERS_MOST), STEPS_MIN[-1])
    for number in range(int(story.length_min // step) + 1):
        values = [curve.value_at(points, number * step) for points in (story.dome, story.meat)]
        if any(value is not None for value in values):
            yield report.speech.clock(number * step), *(NOTHING if value is None else say(value) for value in values)
