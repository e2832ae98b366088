"""The whole rule base as one chart: symptom by finding by what speaks for it by what to do by cautions. Data only."""

from collections.abc import Mapping
from dataclasses import dataclass

from advisor.conditions import Condition
from advisor.rule_lint.chart_words import Procedure, Words
from advisor.rulebook.catalogue import Caution
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import CONCERNS, Rule

LEVELS = ("danger", "warning", "note")


@dataclass(frozen=True, slots=True)
class Sign:
    """A diagnose rule seen from its finding: weight above 0 speaks for it, below 0 against it."""

    weight: float
    when: str


@dataclass(frozen=True, slots=True)
class Row:
    """One finding with all that leads to it and all that follows from it."""

    finding: str
    says: str
    signs: tuple[Sign, ...]
    procedures: tuple[Procedure, ...]


@dataclass(frozen=True, slots=True)
class Care:
    """A caution, and when it is given."""

    id: str
    level: str
    says: str
    defer_to: str
    when: tuple[str, ...]


@dataclass(frozen=True)
class Chart:
    """The whole rule base.

    families: rows by symptom family; straight: procedures that need no finding, by concern; cares: dangers first;
    answers: (asked, told); meanings: (what is concluded, each of the ways when).
    """

    families: Mapping[str, tuple[Row, ...]]
    straight: Mapping[str, tuple[Procedure, ...]]
    cares: tuple[Care, ...]
    answers: tuple[tuple[str, str], ...]
    meanings: tuple[tuple[str, tuple[str, ...]], ...]


def chart_of(rulebook: Rulebook) -> Chart:
    """The chart of a rule base."""
    words = Words(rulebook)
    findings = rulebook.catalogue.findings
    families = {family: tuple(_row(name, words) for name, finding in findings.items() if finding.family == family)
                for family in dict.fromkeys(finding.family for finding in findings.values())}
    straight = [rule for rule in rulebook.of("recover") if not _findings_of(rule, rulebook)]
    return Chart(families, {concern: words.procedures(rule for rule in straight if rule.then.concern == concern)
                            for concern in CONCERNS if any(rule.then.concern == concern for rule in straight)},
                 _cares(words),
                 tuple((words.when(rule), words.text(rule.then.tell or "")) for rule in rulebook.of("teach")),
                 _meanings(words))


def _meanings(words: Words) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What rules of understand/ conclude, each conclusion once, with all the ways that lead to it."""
    found: dict[str, list[str]] = {}
    for rule in words.rulebook.of("understand"):
        for fact, value in (rule.then.know or {}).items():
            found.setdefault(words.condition(Condition(fact, one_of=(value,))), []).append(words.when(rule))
    return tuple((concluded, tuple(ways)) for concluded, ways in found.items())


def _row(name: str, words: Words) -> Row:
    rules = words.rulebook
    signs = sorted((Sign(weight, words.when(rule)) for rule in rules.of("diagnose")
                    if (weight := (rule.then.points_to or {}).get(name))), key=lambda sign: -sign.weight)
    following = (rule for rule in rules.of("recover") if name in _findings_of(rule, rules))
    return Row(name, words.text(rules.catalogue.findings[name].says), tuple(signs), words.procedures(following))


def _findings_of(rule: Rule, rulebook: Rulebook) -> set[str]:
    return {condition.fact for condition in rule.when} & rulebook.catalogue.findings.keys()


def _cares(words: Words) -> tuple[Care, ...]:
    """Every caution, dangers first."""
    rulebook = words.rulebook
    acts = rulebook.catalogue.acts.values()

    def care(name: str, caution: Caution) -> Care:
        when = [words.when(rule) for rule in rulebook.of("safety") if name in (rule.then.warn or ())]
        return Care(name, caution.level, words.text(caution.says), caution.defer_to,
                    (*when, *(f"before you {act.title}" for act in acts if name in act.needs)))

    cares = (care(name, caution) for name, caution in rulebook.catalogue.cautions.items())
    return tuple(sorted(cares, key=lambda found: LEVELS.index(found.level)))
