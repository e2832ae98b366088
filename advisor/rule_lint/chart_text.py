"""The chart of the rule base as lines of text: columns where there is room, one below the other where there is not."""

import textwrap
from collections.abc import Iterable, Iterator

from advisor.rule_lint.chart import Chart, Row, chart_of
from advisor.rule_lint.chart_words import Procedure
from advisor.rulebook.loader import Rulebook

NARROWEST_TABLE = 72
SHARES = (0.2, 0.3, 0.34, 0.16)  # of the width: finding, what speaks for it, what to do, cautions
HEADINGS = ("finding", "speaks for it", "what to do", "take care")


def map_lines(rulebook: Rulebook, width: int) -> list[str]:
    """The whole chart in lines of at most `width` columns (20 or more)."""
    chart = chart_of(rulebook)
    width = max(20, width)
    lines = [line for part in (_findings, _straight, _cares, _answers, _meanings) for line in part(chart, width)]
    return lines[:-1] if lines and not lines[-1] else lines


def _findings(chart: Chart, width: int) -> Iterator[str]:
    layout = _table if width >= NARROWEST_TABLE else _stack
    for family, rows in chart.families.items():
        yield from _heading(family, width)
        yield from layout(rows, width)


def _table(rows: tuple[Row, ...], width: int) -> Iterator[str]:
    widths = [int((width - 3) * share) for share in SHARES]
    yield from _columns([[heading] for heading in HEADINGS], widths)
    yield from _columns([["-" * room] for room in widths], widths)
    for row in rows:
        yield from _columns([_wrapped(cell, room) for cell, room in zip(_cells(row), widths)], widths)
        yield ""


def _stack(rows: tuple[Row, ...], width: int) -> Iterator[str]:
    for row in rows:
        for heading, cell in zip(HEADINGS, _cells(row)):
            if cell:
                yield heading.upper()
                yield from (f"  {line}" for line in _wrapped(cell, width - 2))
        yield ""


def _cells(row: Row) -> tuple[list[str], list[str], list[str], list[str]]:
    """A row as paragraphs for each column."""
    signs = [f"{sign.weight:+.2g} {sign.when}" for sign in row.signs] or ["nothing yet"]
    steps = [line for procedure in row.procedures for line in procedure_lines(procedure)]
    cautions = dict.fromkeys(name for procedure in row.procedures for name in procedure.cautions)
    return [f"{row.finding}:", row.says], signs, steps, [name.replace("-", " ") for name in cautions]


def procedure_lines(procedure: Procedure) -> list[str]:
    """A procedure, a paragraph for its title, its conditions and each step."""
    return [f"{procedure.title} ({procedure.standing})", f"When {procedure.when}",
            *(f"{number}. {step}" for number, step in enumerate(procedure.steps, 1))]


def _straight(chart: Chart, width: int) -> Iterator[str]:
    for concern, procedures in chart.straight.items():
        yield from _heading(f"straight from what is seen: {concern}", width)
        for procedure in procedures:
            yield from _wrapped(procedure_lines(procedure), width)
            yield ""


def _cares(chart: Chart, width: int) -> Iterator[str]:
    yield from _heading("cautions", width)
    for care in chart.cares:
        yield from _wrapped([f"{care.level.upper()} {care.id.replace('-', ' ')}: {care.says}"], width)
        yield from (f"  {line}" for line in _wrapped(list(care.when), width - 2))
        yield ""


def _answers(chart: Chart, width: int) -> Iterator[str]:
    yield from _pairs("answers", [(asked, (told,)) for asked, told in chart.answers], width)


def _meanings(chart: Chart, width: int) -> Iterator[str]:
    yield from _pairs("what the words mean", chart.meanings, width)


def _pairs(heading: str, pairs: Iterable[tuple[str, tuple[str, ...]]], width: int) -> Iterator[str]:
    for number, (one, others) in enumerate(pairs):
        if not number:
            yield from _heading(heading, width)
        yield from _wrapped([f"{one}:", *(f"- {other}" for other in others)], width)
        yield ""


def _heading(text: str, width: int) -> list[str]:
    words = textwrap.wrap(text.upper(), width)
    return [*words, "=" * max(map(len, words), default=0), ""]


def _wrapped(paragraphs: list[str], width: int) -> list[str]:
    return [line for paragraph in paragraphs for line in textwrap.wrap(paragraph, width, subsequent_indent="  ")]


def _columns(cells: list[list[str]], widths: list[int]) -> Iterator[str]:
    for number in range(max(map(len, cells))):
        parts = (cell[number] if number < len(cell) else "" for cell in cells)
        yield " ".join(part.ljust(room) for part, room in zip(parts, widths)).rstrip()
