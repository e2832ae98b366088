"""The whole rule base as one chart: symptom by finding by what speaks for it by what to do by cautions. Data only."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from advisor.conditions import Condition
from advisor.facts import Value
from advisor.rulebook.catalogue import Caution
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import CONCERNS, STANDINGS, Amount, Rule, Step
from advisor.wording import PLACEHOLDER, Wording

LEVELS = ("danger", "warning", "note")


@dataclass(frozen=True, slots=True)
class Sign:
    """A diagnose rule seen from its finding: weight above 0 speaks for it, below 0 against it."""

    weight: float
    when: str


@dataclass(frozen=True, slots=True)
class Procedure:
    """What to do: when, how urgent, the steps in order, how to know it worked, the cautions that stand before it."""

    rule: str
    title: str
    when: str
    standing: str
    steps: tuple[str, ...]
    works_if: str
    if_not: str
    cautions: tuple[str, ...]


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
    answers: (asked, told); meanings: (what is concluded, when).
    """

    families: Mapping[str, tuple[Row, ...]]
    straight: Mapping[str, tuple[Procedure, ...]]
    cares: tuple[Care, ...]
    answers: tuple[tuple[str, str], ...]
    meanings: tuple[tuple[str, str], ...]


def chart_of(rulebook: Rulebook) -> Chart:
    """The chart of a rule base."""
    words = _Words(rulebook)
    findings = rulebook.catalogue.findings
    families = {family: tuple(_row(name, words) for name, finding in findings.items() if finding.family == family)
                for family in dict.fromkeys(finding.family for finding in findings.values())}
    straight = [rule for rule in rulebook.of("recover") if not _findings_of(rule, rulebook)]
    return Chart(families, {concern: words.procedures(rule for rule in straight if rule.then.concern == concern)
                            for concern in CONCERNS if any(rule.then.concern == concern for rule in straight)},
                 _cares(words),
                 tuple((words.when(rule), words.text(rule.then.tell or "")) for rule in rulebook.of("teach")),
                 tuple((words.condition(Condition(fact, one_of=(value,))), words.when(rule))
                       for rule in rulebook.of("understand") for fact, value in (rule.then.know or {}).items()))


def _row(name: str, words: "_Words") -> Row:
    rules = words.rulebook
    signs = sorted((Sign(weight, words.when(rule)) for rule in rules.of("diagnose")
                    if (weight := (rule.then.points_to or {}).get(name))), key=lambda sign: -sign.weight)
    following = (rule for rule in rules.of("recover") if name in _findings_of(rule, rules))
    return Row(name, words.text(rules.catalogue.findings[name].says), tuple(signs), words.procedures(following))


def _findings_of(rule: Rule, rulebook: Rulebook) -> set[str]:
    return {condition.fact for condition in rule.when} & rulebook.catalogue.findings.keys()


def _cares(words: "_Words") -> tuple[Care, ...]:
    """Every caution, dangers first."""
    rulebook = words.rulebook
    acts = rulebook.catalogue.acts.values()

    def care(name: str, caution: Caution) -> Care:
        when = [words.when(rule) for rule in rulebook.of("safety") if name in (rule.then.warn or ())]
        return Care(name, caution.level, words.text(caution.says), caution.defer_to,
                    (*when, *(f"before you {act.title}" for act in acts if name in act.needs)))

    cares = (care(name, caution) for name, caution in rulebook.catalogue.cautions.items())
    return tuple(sorted(cares, key=lambda found: LEVELS.index(found.level)))


class _Words:
    """Parts of rules in kitchen words. What a step takes from a fact stands in brackets: [the target]."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook, self._wording = rulebook, Wording(rulebook.vocabulary)

    def procedures(self, rules: Iterable[Rule]) -> tuple[Procedure, ...]:
        """The most urgent first."""
        ranked = sorted(rules, key=lambda rule: (STANDINGS.index(rule.then.standing), rule.id))
        return tuple(self._procedure(rule) for rule in ranked)

    def _procedure(self, rule: Rule) -> Procedure:
        then, catalogue = rule.then, self.rulebook.catalogue
        cautions = dict.fromkeys(name for step in then.steps or () for name in catalogue.acts[step.act].needs)
        return Procedure(rule.id, rule.file.title, self.when(rule), then.standing or "",
                         tuple(self.step(step) for step in then.steps or ()), self.text(then.works_if or ""),
                         self.text(then.if_not or ""), tuple(cautions))

    def when(self, rule: Rule) -> str:
        """Conditions of a rule as one line."""
        unless = " or ".join(self.condition(condition) for condition in rule.unless)
        return ", ".join(self.condition(condition) for condition in rule.when) + (f"; unless {unless}" if unless else "")

    def condition(self, condition: Condition) -> str:
        name = condition.fact
        if name not in self.rulebook.vocabulary:
            return f"{name.replace('-', ' ')} is {condition.one_of[0]}"
        definition = self.rulebook.vocabulary[name]
        if definition.type == "flag" and condition.one_of in ((True,), (False,)):
            return definition.says if condition.one_of[0] else f"not: {definition.says}"
        tests = [" or ".join(self._value(name, value) for value in condition.one_of)] if condition.one_of else []
        tests += [f"not {self._value(name, value)}" for value in condition.none_of]
        tests += [f"{said} {self._value(name, bound)}" for said, bound in (
            ("at least", condition.at_least), ("over", condition.above), ("at most", condition.at_most),
            ("under", condition.below)) if bound is not None]
        return f"{definition.says}: {', '.join(tests) or 'known'}"

    def _value(self, name: str, value: Value) -> str:
        sign = "minus " if isinstance(value, float) and value < 0 else ""
        return sign + self._wording.say(name, value)

    def step(self, step: Step) -> str:
        """A step with its own figures filled in; it says when it is due, where that is not at once."""
        return self.text(step.says, {**step.parameters, "wait_min": step.wait_min})

    def text(self, says: str, own: Mapping[str, object] | None = None) -> str:
        """Words with nothing known but `own`: a fact's place shows the fact's name in brackets."""
        own = own or {}
        return PLACEHOLDER.sub(lambda found: self._place(found[1], own.get(found[1])), says)

    def _place(self, name: str, value: object) -> str:
        if isinstance(value, dict):
            value = Amount.model_validate(value)
        if isinstance(value, Amount):
            return f"[{self.rulebook.vocabulary[value.from_].says}{f'{value.plus:+g}' if value.plus else ''}]"
        if value is not None:
            return self._wording.say(name, float(value) if isinstance(value, int) else value)
        return f"[{self.rulebook.vocabulary[name].says}]" if name in self.rulebook.vocabulary else "[...]"
