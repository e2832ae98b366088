"""Rules in kitchen words for the chart: conditions, steps and texts with nothing known of any cook."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from advisor.conditions import Condition
from advisor.facts import Value
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import STANDINGS, Amount, Rule, Step
from advisor.wording import PLACEHOLDER, Wording


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


class Words:
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
