"""From a cook to what its picture shows, in the reader's units."""

from collections.abc import Sequence

from advisor.pictures.cook_picture import CookScene
from advisor.report import curve, hands
from advisor.report.lessons import Lesson
from advisor.report.story import CookStory, Points
from advisor.units import UnitStyle, f_to_c


def scene_of(story: CookStory, lessons: Sequence[Lesson], units: UnitStyle, title: str, below: Sequence[str] = ()) -> CookScene:
    """What is to be drawn; lessons that belong to a minute are marked there by their letters."""
    celsius = units.temperature == "C"
    band = None if story.target_f is None else curve.band(story.target_f)
    return CookScene(
        title=title, below=below, length_min=story.length_min, degrees="°C" if celsius else "°F",
        starts_at=story.started.hour * 60 + story.started.minute + story.started.second / 60,
        dome=_in_units(story.dome, celsius), core=_in_units(story.meat, celsius),
        band=band and tuple(f_to_c(edge) if celsius else edge for edge in band),
        vents={vent: hands.openings(story.moves, vent, story.length_min) for vent in ("top", "bottom")},
        visits=hands.occasions(hands.made(story.moves)),
        lids=[lid.at_min for lid in story.lids if not lid.burp], burps=[lid.at_min for lid in story.lids if lid.burp],
        advice=[advised.at_min for advised in story.advice if advised.steps],
        marks=[(lesson.letter, lesson.at_min) for lesson in lessons if lesson.at_min is not None])


def _in_units(points: Points, celsius: bool) -> Points:
    return tuple((minute, f_to_c(value)) for minute, value in points) if celsius else points
