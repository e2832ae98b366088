"""What a cook teaches: lessons kept as data, chosen by conditions on its figures. Knows no lesson itself."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from pydantic import Field, ValidationError

from advisor.errors import RuleFileError
from advisor.report.known_figures import FIGURES, Figures
from advisor.rulebook.schema import Conditions, Frozen
from advisor.suggestions import did_you_mean
from advisor.wording import PLACEHOLDER
from advisor.yamlfile import line_of, read_yaml, refusal

FILE = "lessons.yaml"
MOST = 5
PHRASES = ("band", "fuel_told", "fuel_estimated", "fuel_unknown", "summary", "summary_not_reached", "summary_no_target",
           "summary_too_little", "no_lessons", "closing")
Tone = Literal["well", "better"]


class LessonRule(Frozen):
    """One lesson as it stands in the file.

    at: the figure that says to which minute it belongs; unless_told: lessons that say as much.
    """

    tone: Tone
    worth: float = Field(ge=0, le=100)
    when: Conditions
    unless: Conditions = ()
    unless_told: tuple[str, ...] = ()
    at: str | None = None
    says: str = Field(min_length=1)
    source: str = Field(min_length=1)

    def names(self) -> set[str]:
        """Every figure it names."""
        asked = {condition.fact for condition in (*self.when, *self.unless)}
        return asked | self.needs()

    def needs(self) -> set[str]:
        """The figures without which its words would have a hole."""
        filled = {name for name, _ in PLACEHOLDER.findall(self.says)}
        return filled | ({self.at} if self.at else set())

    def holds(self, figures: Figures) -> bool:
        """Whether it can be learned from these figures."""
        return (self.needs() <= set(figures)
                and all(condition.holds(figures.get(condition.fact)) for condition in self.when)
                and not any(condition.holds(figures.get(condition.fact)) for condition in self.unless))


class LessonBook(Frozen):
    """All lessons by their ids, and the set phrases of a report."""

    phrases: dict[str, str]
    lessons: dict[str, LessonRule]


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson of one cook. letter: A, B ... as the curve carries it; at_min: where; says: braces still unfilled."""

    letter: str
    id: str
    tone: Tone
    says: str
    at_min: float | None


def read_lessons(folder: Path) -> LessonBook:
    """The lessons of a rules folder. Raises RuleFileError with file and line."""
    path = folder / FILE
    try:
        book = LessonBook.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        raise refusal(path, error, {*LessonRule.model_fields, *LessonBook.model_fields}) from None
    _check_phrases(path, book.phrases)
    for name, lesson in book.lessons.items():
        _check_names(path, name, lesson)
        _check_others(path, name, lesson, book)
    return book


def choose(book: LessonBook, figures: Figures) -> tuple[Lesson, ...]:
    """At most MOST lessons, most useful first; praise takes the last place when it would have none."""
    held = _told_once(sorted(((name, lesson) for name, lesson in book.lessons.items() if lesson.holds(figures)),
                             key=lambda pair: -pair[1].worth))
    chosen, left = held[:MOST], held[MOST:]
    praise = _first_praise(left)
    if praise and not _first_praise(chosen):
        chosen = [*chosen[:-1], praise]
    return tuple(_lesson(letter, *pair, figures) for letter, pair in zip("ABCDE", chosen, strict=False))


def _told_once(pairs: Iterable[tuple[str, LessonRule]]) -> list[tuple[str, LessonRule]]:
    """The lessons without those of which a more useful one says as much."""
    kept: dict[str, LessonRule] = {}
    for name, lesson in pairs:
        if not kept.keys() & set(lesson.unless_told):
            kept[name] = lesson
    return list(kept.items())


def _first_praise(pairs: Iterable[tuple[str, LessonRule]]) -> tuple[str, LessonRule] | None:
    return next((pair for pair in pairs if pair[1].tone == "well"), None)


def _lesson(letter: str, name: str, rule: LessonRule, figures: Figures) -> Lesson:
    return Lesson(letter, name, rule.tone, rule.says, float(figures[rule.at]) if rule.at else None)


def _check_names(path: Path, name: str, lesson: LessonRule) -> None:
    for figure in sorted(lesson.names() - set(FIGURES)):
        raise RuleFileError(_place(path, "lessons", name), f"{name} names {figure!r}, a figure that nobody works out",
                            "it would never be told", did_you_mean(figure, FIGURES))
    if lesson.at and FIGURES[lesson.at][0] != "moment":
        raise RuleFileError(_place(path, "lessons", name, "at"), f"{name} points at {lesson.at!r}, which is no minute",
                            "it has no place on the curve", "name one that ends in _at, such as over_at")


def _check_others(path: Path, name: str, lesson: LessonRule, book: LessonBook) -> None:
    for other in (other for other in lesson.unless_told if other not in book.lessons):
        raise RuleFileError(_place(path, "lessons", name, "unless_told"), f"there is no lesson {other!r}", "",
                            did_you_mean(other, book.lessons))


def _check_phrases(path: Path, phrases: Mapping[str, str]) -> None:
    for missing in (name for name in PHRASES if name not in phrases):
        raise RuleFileError(_place(path, "phrases"), f"the phrase {missing!r} is missing",
                            "a report cannot be written without it", "add it")
    for name, text in phrases.items():
        for figure, _ in PLACEHOLDER.findall(text):
            if name not in PHRASES or figure not in FIGURES:
                raise RuleFileError(_place(path, "phrases", name), f"there is no figure {figure!r}", "",
                                    did_you_mean(figure, FIGURES))


def _place(path: Path, *keys: str) -> str:
    return f"{path}:{line_of(path, keys)}"
