"""From a cook to what its picture shows, in the reader's units."""

from collections.abc import Sequence

from advisor.pictures.cook_picture import CookScene, Figure, draw
from advisor.report import curve, hands
from advisor.report.report import TONES, Report
from advisor.report.story import Points
from advisor.units import f_to_c


def scene_of(report: Report, below: Sequence[str] = ()) -> CookScene:
    """What is to be drawn; lessons that belong to a minute are marked there by their letters."""
    story, lessons, title = report.story, report.lessons, report.speech.title()
    celsius = report.speech.wording.units.temperature == "C"
    band = None if story.target_f is None else curve.band(story.target_f)
    return CookScene(
        title=title, below=below, length_min=story.length_min, degrees="°C" if celsius else "°F",
        starts_at=story.started.hour * 60 + story.started.minute + story.started.second / 60,
        measured_at=story.measured_at, dome=_in_units(story.dome, celsius), core=_in_units(story.meat, celsius),
        band=band and tuple(f_to_c(edge) if celsius else edge for edge in band),
        vents={vent: hands.openings(story.moves, vent, story.length_min) for vent in ("top", "bottom")},
        visits=hands.occasions(hands.made(story.moves)),
        lids=[lid.at_min for lid in story.lids if not lid.burp], burps=[lid.at_min for lid in story.lids if lid.burp],
        advice=[advised.at_min for advised in story.advice if advised.steps],
        marks=[(lesson.letter, lesson.at_min) for lesson in lessons if lesson.at_min is not None])


def picture_of(report: Report) -> Figure:
    """The picture that stands alone: curve, summary and lessons on one sheet."""
    lessons = [f"{lesson.letter} ({TONES[lesson.tone]}): {report.said(lesson)}" for lesson in report.lessons]
    return draw(scene_of(report, [report.speech.summary(report.phrases), *lessons]))


def _in_units(points: Points, celsius: bool) -> Points:
    return tuple((minute, f_to_c(value)) for minute, value in points) if celsius else points
