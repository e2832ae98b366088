"""A report as a few lines of text, for a terminal."""

from advisor.report.report import TONES, Report


def text(report: Report) -> str:
    """Title, summary, lessons and figures; long lines are left to the terminal to break."""
    blocks = [[report.speech.title(), *_outcome(report)], [report.speech.summary(report.phrases)],
              _lessons(report) or [report.phrase("no_lessons")], [_line(*row) for row in report.rows()],
              [report.phrase("closing")]]
    return "\n\n".join("\n".join(block) for block in blocks)


def _outcome(report: Report) -> list[str]:
    outcome = report.story.outcome
    return [report.speech.span(), *([f"How it turned out: {outcome}"] if outcome else [])]


def _lessons(report: Report) -> list[str]:
    return [f"{TONES[lesson.tone].capitalize()}{_at(report, lesson.at_min)}: {report.said(lesson)}"
            for lesson in report.lessons]


def _line(name: str, value: str, note: str) -> str:
    return f"{name}: {value}{note and f' - {note}'}"


def _at(report: Report, at_min: float | None) -> str:
    return "" if at_min is None else f", at {report.speech.clock(at_min)}"
