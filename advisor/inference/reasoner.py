"""The door of inference: facts in, conclusions out, a pure function for a given rule base.

Two runs of the engine: readings to derived facts and evidence; then, with the findings weighed, to advice.
"""

from collections.abc import Mapping

from advisor.conditions import Condition
from advisor.facts import Fact, Value
from advisor.inference.certainty import combine, trusted
from advisor.inference.engine import Engine
from advisor.inference.productions import productions_of, rule_id_of
from advisor.inference.records import NOTHING_NEW, Blocked, Evidence, Firing, Held, Inference
from advisor.inference.strata import salience_of
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import FINDING_GRADES, Rule

ASKED = "about"
WORTH_SAYING = FINDING_GRADES["possible"]


class Reasoner:
    """A rule base made ready. Build it once; `infer` may be called from several threads."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook = rulebook
        self._diagnosis = self._engine(rulebook.of("understand", "diagnose"))
        answering = {rule.id for rule in rulebook.of("teach") if any(c.fact == ASKED for c in rule.when)}
        telling = rulebook.of("recover", "safety", "teach")
        self._advice = self._engine(tuple(rule for rule in telling if rule.id not in answering))
        self._answers = self._engine(tuple(rule for rule in telling if rule.id in answering))

    def _engine(self, rules: tuple[Rule, ...]) -> Engine:
        return Engine(productions_of(rules, salience_of(rules), self.rulebook.vocabulary))

    def infer(self, facts: Mapping[str, Fact]) -> Inference:
        """Everything that follows from `facts`. Raises InferenceError when rules loop."""
        run = _Run(self.rulebook, facts)
        run.through(self._diagnosis)
        run.weigh()
        run.through(self._advice)
        if ASKED in facts:  # most turns ask nothing, and then nothing need be looked for
            run.through(self._answers)
        return run.outcome()


class _Run:
    """The state of one inference while it lasts."""

    def __init__(self, rulebook: Rulebook, facts: Mapping[str, Fact]) -> None:
        self._rules = rulebook.by_id
        self._facts = {name: _rounded(fact) for name, fact in facts.items()}
        self._firings: dict[str, Firing] = {}
        self._blocked: dict[str, Blocked] = {}
        self._evidence: list[Evidence] = []
        self._weighed: tuple[Held, ...] = ()

    def through(self, engine: Engine) -> None:
        """Run one engine on all that is known so far."""
        known = [(name, fact.value) for name, fact in self._facts.items()]
        known += [(held.id, held.certainty) for held in self._findings()]
        engine.run(known, self._fire)

    def _fire(self, production: str) -> list[tuple[str, Value]]:
        rule = self._rules[rule_id_of(production)]
        if rule.id in self._firings or rule.id in self._blocked:
            return []  # another way of writing the same rule has been here
        if blocker := self._blocker(rule):
            self._blocked[rule.id] = Blocked(rule, blocker)
            return []
        used = tuple(fact for condition in rule.when if (fact := self._fact(condition.fact)))
        new = self._conclude(rule, used)
        self._firings[rule.id] = Firing(len(self._firings) + 1, rule, used, _words(rule, new))
        return [(fact.name, fact.value) for fact in new]

    def _blocker(self, rule: Rule) -> Fact | None:
        """The first fact that a condition of `unless` finds to hold. Unknown blocks nothing."""
        return next((fact for condition in rule.unless
                     if (fact := self._fact(condition.fact)) and _holds(condition, fact.value)), None)

    def _conclude(self, rule: Rule, used: tuple[Fact, ...]) -> list[Fact]:
        self._evidence += [Evidence(finding, trusted(weight, used), rule.id)
                           for finding, weight in (rule.then.points_to or {}).items()]
        at_min = max((fact.at_min for fact in used), default=0.0)
        new = [Fact(name, value, "derived", at_min) for name, value in (rule.then.know or {}).items()
               if name not in self._facts]  # what was said or concluded before stands
        self._facts |= {fact.name: fact for fact in new}
        return new

    def weigh(self) -> None:
        """Evidence to findings, surest first."""
        by_finding: dict[str, list[Evidence]] = {}
        for evidence in self._evidence:
            by_finding.setdefault(evidence.finding, []).append(evidence)
        weighed = [Held(finding, round(combine(e.weight for e in found), 4), tuple(found))
                   for finding, found in by_finding.items()]
        self._weighed = tuple(sorted(weighed, key=lambda held: (-held.certainty, held.id)))

    def _findings(self) -> tuple[Held, ...]:
        return tuple(held for held in self._weighed if held.certainty >= WORTH_SAYING)

    def _fact(self, name: str) -> Fact | None:
        if fact := self._facts.get(name):
            return fact
        return next((Fact(name, held.certainty, "derived") for held in self._findings() if held.id == name), None)

    def outcome(self) -> Inference:
        return Inference(self._facts, self._findings(), tuple(self._firings.values()),
                         tuple(self._blocked.values()), self._weighed)


def _holds(condition: Condition, value: Value) -> bool:
    """A condition on a fact, or a grade asked of a finding's certainty."""
    if condition.one_of and isinstance(value, float) and set(condition.one_of) <= set(FINDING_GRADES):
        return value >= min(FINDING_GRADES[str(word)] for word in condition.one_of)
    return bool(condition.holds(value))


def _rounded(fact: Fact) -> Fact:
    """Numbers as the engine compares them, so that Python's own tests agree with it."""
    if isinstance(fact.value, float):
        return Fact(fact.name, round(fact.value, 4), fact.origin, fact.at_min)
    return fact


def _words(rule: Rule, new: list[Fact]) -> str:
    then = rule.then
    if then.points_to:
        return ", ".join(f"{finding} {weight:+g}" for finding, weight in then.points_to.items())
    if then.warn:
        return ", ".join(then.warn)
    if then.steps:
        return ", ".join(step.act for step in then.steps)
    return then.tell or ", ".join(f"{fact.name} = {fact.value}".lower() for fact in new) or NOTHING_NEW
