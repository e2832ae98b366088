"""One cook with all that a report tells of it, worked out once for page, picture and terminal."""

from dataclasses import dataclass

from advisor.report.figures import figures_of
from advisor.report.known_figures import Figures
from advisor.report.lessons import Lesson, LessonBook, choose
from advisor.report.speech import Row, Speech
from advisor.report.story import CookStory
from advisor.report.timeline import Happening, happenings
from advisor.wording import Wording

TONES = {"well": "well done", "better": "next time"}


@dataclass(frozen=True, slots=True)
class Report:
    """The cook, its figures, what it teaches, and the way to say it all to one reader."""

    story: CookStory
    figures: Figures
    lessons: tuple[Lesson, ...]
    happenings: tuple[Happening, ...]
    speech: Speech
    phrases: dict[str, str]

    def rows(self) -> list[Row]:
        """The figures in words."""
        return list(self.speech.rows(self.phrases))

    def said(self, lesson: Lesson) -> str:
        """A lesson in words."""
        return self.speech.fill(lesson.says)

    def phrase(self, name: str) -> str:
        """A set phrase of rules/lessons.yaml, filled."""
        return self.speech.fill(self.phrases[name])


def report_on(story: CookStory, book: LessonBook, wording: Wording) -> Report:
    """The report of one cook, to be told in these units."""
    figures = figures_of(story)
    return Report(story, figures, lessons=choose(book, figures), happenings=tuple(happenings(story)),
                  speech=Speech(story, figures, wording), phrases=book.phrases)
