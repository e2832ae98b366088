"""The chart of the rule base as one self-contained HTML page, for the screen and for the wall."""

from collections.abc import Iterable
from html import escape
from pathlib import Path

from advisor.rule_lint.chart import Care, Chart, Row, Sign, chart_of
from advisor.rule_lint.chart_words import Procedure
from advisor.rule_lint.safe_steps import CRACK_FIRST
from advisor.rulebook.loader import Rulebook

STYLE = Path(__file__).with_name("chart.css")
URGENT = ("emergency", "safety", "rescue")
HEADINGS = ("What is the matter", "What speaks for it", "What to do", "Take care")


def map_html(rulebook: Rulebook) -> str:
    """The whole page. It needs nothing but itself: no script, no font, no picture."""
    chart = chart_of(rulebook)
    body = "\n".join([_head(rulebook), _cares(chart.cares), _wall(chart), *_families(chart), *_straight(chart),
                      _pairs("Answers", ((asked, (told,)) for asked, told in chart.answers)), _pairs("What the words mean", chart.meanings)])
    return (f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
            f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
            f"<title>The rules on one page</title>\n<style>\n{STYLE.read_text(encoding='utf-8')}</style>\n</head>\n"
            f"<body>\n{body}\n</body>\n</html>\n")


def _head(rulebook: Rulebook) -> str:
    count = len(rulebook.rules)
    return (f"<header><h1>What to do at the cooker</h1><p>{count} rules on one page: find the symptom, then the "
            "finding that fits what you see, then do the steps in order. Figures in [brackets] hang on your own "
            "readings. Danger comes before everything else. The first sheets, up to the end of the wall chart, are for "
            "the wall; what follows is the full reference.</p></header>")


def _cares(cares: Iterable[Care]) -> str:
    return f'<section id="cautions"><h2>Danger first</h2><div class="cares">{"".join(map(_care, cares))}</div></section>'


def _care(care: Care) -> str:
    when = f'<p class="when">{escape("; ".join(care.when))}</p>' if care.when else ""
    above = f'<p class="above">Above this: {escape(care.defer_to)}</p>' if care.defer_to else ""
    return (f'<article id="{escape(care.id)}" class="care {care.level}"><h3><span class="level">{care.level}</span> '
            f"{escape(_plain(care.id))}</h3><p>{escape(care.says)}</p>{when}{above}</article>")


def _wall(chart: Chart) -> str:
    """Symptom, finding and what to do, a line each: the part to hang up."""
    urgent = [f"<li>{escape(procedure.title)}{_mark([procedure])}</li>" for procedures in chart.straight.values()
              for procedure in procedures if procedure.standing in URGENT]
    blocks = _block("At once", urgent) if urgent else ""
    blocks += "".join(_block(_plain(family), map(_wall_line, rows)) for family, rows in chart.families.items())
    return f'<section id="wall"><h2>Wall chart</h2><div class="wall">{blocks}</div></section>'


def _block(heading: str, lines: Iterable[str]) -> str:
    return f"<div><h3>{escape(heading)}</h3><ul>{''.join(lines)}</ul></div>"


def _wall_line(row: Row) -> str:
    titles = dict.fromkeys(procedure.title for procedure in row.procedures)
    arrow = " → " if titles else ""
    return f"<li><b>{escape(row.says)}</b>{arrow}{escape('; '.join(titles))}{_mark(row.procedures)}</li>"


def _mark(procedures: Iterable[Procedure]) -> str:
    opens = any(CRACK_FIRST in procedure.cautions for procedure in procedures)
    return ' <b class="mark">lid: crack it first</b>' if opens else ""


def _families(chart: Chart) -> Iterable[str]:
    headings = "".join(f'<th scope="col">{heading}</th>' for heading in HEADINGS)
    for family, rows in chart.families.items():
        yield (f"<section><h2>{escape(_plain(family))}</h2><table><thead><tr>{headings}</tr></thead><tbody>"
               f"{''.join(map(_row, rows))}</tbody></table></section>")


def _row(row: Row) -> str:
    cautions = dict.fromkeys(name for procedure in row.procedures for name in procedure.cautions)
    return (f'<tr><th scope="row"><b>{escape(_plain(row.finding))}</b><p>{escape(row.says)}</p></th>'
            f'<td data-label="{HEADINGS[1]}">{_list(map(_sign, row.signs))}</td>'
            f'<td data-label="{HEADINGS[2]}">{"".join(map(_procedure, row.procedures))}</td>'
            f'<td data-label="{HEADINGS[3]}">{_cautions(cautions)}</td></tr>')


def _sign(sign: Sign) -> str:
    mark, word = ("+", "for") if sign.weight > 0 else ("−", "against")
    return (f'<li class="{word}"><span class="weight" title="{word} it, {abs(sign.weight):g} of 1">'
            f"{mark}{abs(sign.weight):g}</span> {escape(sign.when)}</li>")


def _procedure(procedure: Procedure, cautions: str = "") -> str:
    steps = "".join(f"<li>{escape(step)}</li>" for step in procedure.steps)
    ends = "".join(f"<p><b>{label}</b> {escape(text)}</p>" for label, text in (
        ("It works when:", procedure.works_if), ("If not:", procedure.if_not)) if text)
    return (f'<div class="procedure"><h4>{escape(procedure.title)} <span class="standing">{procedure.standing}</span>'
            f'</h4><p class="when">When {escape(procedure.when)}</p><ol>{steps}</ol>{ends}{cautions}</div>')


def _straight(chart: Chart) -> Iterable[str]:
    for concern, procedures in chart.straight.items():
        cards = "".join(_procedure(procedure, _cautions(procedure.cautions)) for procedure in procedures)
        yield f'<section><h2>Straight from what is seen: {escape(concern)}</h2><div class="cards">{cards}</div></section>'


def _pairs(heading: str, pairs: Iterable[tuple[str, Iterable[str]]]) -> str:
    items = "".join(f"<div><dt>{escape(one)}</dt>{''.join(f'<dd>{escape(other)}</dd>' for other in others)}</div>"
                    for one, others in pairs)
    return f'<section><h2>{heading}</h2><dl class="cards">{items}</dl></section>' if items else ""


def _cautions(names: Iterable[str]) -> str:
    items = [f'<li><a href="#{escape(name)}">{escape(_plain(name))}</a></li>' for name in names]
    return f'<ul class="cautions">{"".join(items)}</ul>' if items else ""


def _list(items: Iterable[str]) -> str:
    return f"<ul>{''.join(items)}</ul>"


def _plain(name: str) -> str:
    """An id as words."""
    words = name.replace("-", " ").replace("_", " ")
    return words[:1].upper() + words[1:]
