"""placeholders: a {fact} in the words for the cook has words to fall back on, or is known for sure.

Avoid
    says: Wait until it reads {target_f}.          said to a cook who never named a target
    because: At {dome_f} it flares.                `because` and `title` are said as they stand
    says: It reads {dome_f}.                       in cautions.yaml or vocabulary.yaml, which know nothing for sure
Prefer
    says: Wait until it reads {target_f|what you are aiming for}.
Why
    An empty place comes out as "the target", in words nobody chose. Known for sure are the step's own parameters,
    wait_min, what `when` names and what follows from that; works_if and if_not know only what `when` names; a
    finding knows what all the rules that point to it know.
"""

from collections.abc import Iterable, Iterator

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.known import known_when_fired
from advisor.rule_lint.material import Key, Material
from advisor.rule_lint.solving import pointers
from advisor.rulebook.schema import Rule
from advisor.wording import PLACEHOLDER

ID = "placeholders"
DO = "give it words to fall back on: {name|words}"


def check(material: Material) -> Iterator[Issue]:
    for rule in material.rules:
        yield from _of_rule(rule, material)
    for file, keys, says, known in _lists(material):
        for name in _bare(says, known):
            yield material.listed(ID, file, keys, f"{{{name}}} may be unknown", "the words have a hole", DO)


def _of_rule(rule: Rule, material: Material) -> Iterator[Issue]:
    for key in ("title", "because", "known_exceptions"):
        if found := PLACEHOLDER.search(getattr(rule.file, key) or ""):
            yield material.issue(ID, rule, [key], f"{found.group()} stands in {key}", "it is said as it stands",
                                 "write it out in words")
    named = {condition.fact for condition in rule.when}
    for keys, text, own in _texts(rule):
        for name in _bare(text, named | own):
            if keys[-1] in ("works_if", "if_not") or name not in known_when_fired(rule, material):
                yield material.issue(ID, rule, keys, f"{{{name}}} may be unknown", "the words have a hole", DO)


def _texts(rule: Rule) -> list[tuple[list[Key], str, set[str]]]:
    """Texts with placeholders: where, the text, names that the step itself brings."""
    then = rule.then
    found = [(["then", key], text, set()) for key in ("tell", "works_if", "if_not")
             if "{" in (text := getattr(then, key) or "")]
    return found + [(["then", "steps", number, "says"], step.says,
                     set(step.parameters) | ({"wait_min"} if step.wait_min is not None else set()))
                    for number, step in enumerate(then.steps or ()) if "{" in step.says]


def _bare(text: str, known: Iterable[str]) -> list[str]:
    """Names without words to fall back on that are not known."""
    return [name for name, otherwise in PLACEHOLDER.findall(text)
            if name not in known and f"{{{name}|" not in text]


def _lists(material: Material) -> Iterator[tuple[str, list[Key], str, set[str]]]:
    """Texts of the lists: file, where, the text, what is known whenever it is said."""
    for name, caution in material.catalogue.cautions.items():
        yield "cautions.yaml", ["cautions", name, "says"], caution.says, set()
    for name, finding in material.catalogue.findings.items():
        known = [known_when_fired(rule, material) for rule in pointers(name, material)] if "{" in finding.says else []
        always = {fact for fact in _bare(finding.says, ()) if known and all(fact in found for found in known)}
        yield "findings.yaml", ["findings", name, "says"], finding.says, always
    for name, fact in material.vocabulary.told.items():
        if fact.ask:
            yield "vocabulary.yaml", ["facts", name, "ask", "says"], fact.ask.says, set()
