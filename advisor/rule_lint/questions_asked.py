"""questions: what the vocabulary asks can be answered and weighed.

Avoid
    answers that are no value of the fact; shares that do not add up to 1; a question without answers; a choice that
    lacks `values`
Prefer
    ask:
      says: Are both vents shut?
      choices: ["yes", "no"]
      answers: [{value: true, share: 0.3}, {value: false, share: 0.7}]
Why
    The next question is chosen by supposing each answer in turn, weighed by its share. Wrong shares ask the wrong
    question; an answer that can't stand can't be supposed.
"""

from collections.abc import Iterator

from advisor.errors import DrafthandError
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.vocabulary import FactDefinition

ID = "questions"
ROUNDING = 0.02


def check(material: Material) -> Iterator[Issue]:
    for name, fact in material.vocabulary.told.items():
        for keys, seen, do in _wrong(name, fact):
            yield material.listed(ID, "vocabulary.yaml", ["facts", name, *keys], seen, "the question can't be weighed", do)
        for condition in fact.ended_by:
            if condition.fact not in material.vocabulary.told:
                yield material.listed(ID, "vocabulary.yaml", ["facts", name, "ended_by", condition.fact],
                                      f"{condition.fact} can't be told", f"it never ends {name}", "name a told fact")


def _wrong(name: str, fact: FactDefinition) -> Iterator[tuple[list[str], str, str]]:
    if fact.type == "choice" and not fact.values:
        yield [], f"{name} is a choice without values", "list what it may be under `values`"
    if not fact.ask:
        return
    if not fact.ask.answers:
        yield ["ask"], f"the question for {name} has no answers", "list likely answers with their shares"
        return
    for answer in fact.ask.answers:
        try:
            fact.check(name, answer.value)
        except DrafthandError as error:
            yield ["ask", "answers"], error.seen, error.remedy or error.matters
    total = sum(answer.share for answer in fact.ask.answers)
    if abs(total - 1) > ROUNDING:
        yield ["ask", "answers"], f"the shares for {name} add up to {total:g}", "let them add up to 1"
