"""source: every rule, caution and chart names where it comes from.

Avoid
    source: experience        source: todo        source: common knowledge
Prefer
    source: common practice, no published source
    source: limit used with ASTM C1055 (contact with a surface at about 60 °C for 5 s burns)
    source: certainty factors after Shortliffe and Buchanan 1975, from memory
Why
    People act on these figures beside a fire. Who reads one must be able to look it up, or must be told plainly that
    nobody has published it. A rule that gives a figure therefore names a body, a year, a publication, or says
    "no published source" or "from memory".
"""

import re
from collections.abc import Iterator

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rulebook.schema import Rule

ID = "source"
SAID_PLAINLY = re.compile(r"no published source|from memory", re.IGNORECASE)
NAMED = re.compile(r"\b[A-Z]{3,}\b|\b(18|19|20)\d\d\b|\b(guidance|guidelines?|standard|code|manual|handbook|textbook|"
                   r"articles?|paper|study|statute|definition|arithmetic|geometry|physics|measured|Authority|Agency|"
                   r"Institute|Administration|Department)\b")
VOID = re.compile(r"^\W*(todo|tbd|tba|unknown|none|n/?a|me|myself|experience|common knowledge|internet|web|various|"
                  r"see above|\?+|-+|x+)?\W*$", re.IGNORECASE)
DO = 'name the body, the year or the publication, or say "common practice, no published source" or "from memory"'


def check(material: Material) -> Iterator[Issue]:
    for rule in material.rules:
        if wrong := _wrong(rule.file.source, _has_figure(rule)):
            yield material.issue(ID, rule, ["source"], wrong, "nobody can look it up", DO)
    for name, caution in material.catalogue.cautions.items():
        if wrong := _wrong(caution.source, True):
            yield material.listed(ID, "cautions.yaml", ["cautions", name, "source"], wrong, "nobody can look it up", DO)
    if wrong := _wrong(material.catalogue.vent_chart.source, True):
        yield material.listed(ID, "vent-chart.yaml", ["source"], wrong, "nobody can look it up", DO)


def _wrong(source: str, has_figure: bool) -> str | None:
    if VOID.match(source):
        return f"the source says nothing ({source.strip()!r})"
    if has_figure and not SAID_PLAINLY.search(source) and not NAMED.search(source):
        return f"a figure rests on {source.strip()!r}, which names no source"
    return None


def _has_figure(rule: Rule) -> bool:
    """Whether the rule tells or rests on a number of its own: in its words, conditions or steps.

    The weights of a diagnose rule are judgement everywhere; rules/README.md says so once for all.
    """
    then = rule.then
    words = [rule.file.title, rule.file.because, then.tell, then.works_if, then.if_not,
             *(step.says for step in then.steps or ())]
    if any(re.search(r"\d", text) for text in words if text):
        return True
    bounds = (condition for condition in (*rule.when, *rule.unless)
              if {condition.at_least, condition.above, condition.at_most, condition.below} != {None})
    return bool(any(step.parameters or step.wait_min for step in then.steps or ()) or any(bounds))
