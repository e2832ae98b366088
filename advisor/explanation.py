"""Firings to kitchen words: why this advice, and why not another. Reads records; concludes nothing."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from rapidfuzz import fuzz, process

from advisor.conditions import NUMBER_TESTS, Condition
from advisor.facts import Fact
from advisor.inference.records import NOTHING_NEW, Firing, Held, Inference
from advisor.lacking import holds
from advisor.plan import Plan
from advisor.reply import FiringSaid, UsedFact
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import FINDING_GRADES, Rule
from advisor.wording import Wording

ORIGIN_WORDS = {"said": "you said", "measured": "measured", "derived": "worked out", "assumed": "assumed",
                "learned": "learned from this cooker", "forecast": "forecast"}
NO_PHRASES: Mapping[str, str] = MappingProxyType({})
MOST_NAMED = 20     # rules looked at for the one that came nearest
CLOSE_ENOUGH = 70  # rapidfuzz token_set_ratio: below it the words name nothing we know


def firings_said(inference: Inference) -> tuple[FiringSaid, ...]:
    """All firings of one inference for programs."""
    return tuple(FiringSaid(n=firing.n, rule=firing.rule.id, gave=firing.gave, because=firing.rule.file.because,
                            used=tuple(UsedFact(fact=f.name, value=f.value, origin=f.origin)
                                       for f in (*firing.used, *_figures_of(firing, inference))))
                 for firing in inference.firings)


def _figures_of(firing: Firing, inference: Inference) -> list[Fact]:
    """The facts that the steps of a firing take their figures from and that it does not name among its conditions."""
    values = [value for step in firing.rule.then.steps or () for value in step.parameters.values()]
    names = {value["from"] for value in values if isinstance(value, dict) and "from" in value}
    names -= {fact.name for fact in firing.used}
    return [inference.facts[name] for name in sorted(names) if name in inference.facts]


def why(inference: Inference, plan: Plan, wording: Wording, phrases: Mapping[str, str] = NO_PHRASES) -> list[str]:
    """Lines that lead from what is advised back to what was told; only what the advice rests on."""
    lines = [_because(firing, wording) for firing in plan.chosen] + _learned(inference, plan, wording, phrases)
    lines += [_weighed(held, inference) for held in inference.findings if held.certainty >= FINDING_GRADES["likely"]]
    lines += [_because(firing, wording) for firing in grounds_of(plan.chosen or inference.fired("safety"), inference)]
    return lines


def _weighed(held: Held, inference: Inference) -> str:
    """How sure a finding is, what speaks for it and what against."""
    speaks = {sign: "; ".join(_title(evidence.rule, inference) for evidence in held.evidence if evidence.weight * sign > 0)
              for sign in (1, -1)}
    against = f". Against it: {speaks[-1]}" if speaks[-1] else ""
    return f"{held.id.replace('-', ' ').capitalize()} - I am {held.certainty:.0%} sure: {speaks[1]}{against}."


def why_in_danger(inference: Inference, plan: Plan) -> list[str]:
    """The reasons of what is urgent and of the danger itself; nothing of how sure, nothing of what else is wrong."""
    urgent = [firing for firing in plan.chosen if firing.rule.then.standing in ("emergency", "safety")]
    dangers = {caution.id for caution in plan.lasting_dangers}
    warned = [firing for firing in inference.fired("safety") if dangers & set(firing.rule.then.warn or ())]
    return list(dict.fromkeys(_sentence(firing.rule.file.because) for firing in [*urgent, *warned]))


def _learned(inference: Inference, plan: Plan, wording: Wording, phrases: Mapping[str, str]) -> list[str]:
    """What the cooker's own vent chart gave to the figures of the plan; nothing when they rest on none of it."""
    figures = [fact for firing in plan.chosen for fact in _figures_of(firing, inference)]
    if "learned_chart" not in phrases or not any(fact.origin == "learned" for fact in figures):
        return []
    known = {name: fact.value for name, fact in inference.facts.items()}
    if "chart_top" not in known:
        return []
    return [wording.fill(phrases["learned_chart"], known | {"figure": f"{known['chart_top']:.2f}"})]


def grounds_of(firings: Iterable[Firing], inference: Inference) -> list[Firing]:
    """The firings of understand/ on which `firings` and the findings rest, in the order they fired."""
    by_rule = {firing.rule.id: firing for firing in inference.firings}
    evidence = [by_rule[weight.rule] for held in inference.findings for weight in held.evidence]
    wanted = {fact.name for firing in [*firings, *evidence] for fact in firing.used}
    found: dict[int, Firing] = {}
    for firing in reversed(inference.fired("understand")):
        if wanted & set(firing.rule.then.know or {}) and firing.gave != NOTHING_NEW:
            found[firing.n] = firing
            wanted |= {fact.name for fact in firing.used}
    return [found[n] for n in sorted(found)]


def why_not(words: str, rulebook: Rulebook, inference: Inference, plan: Plan, wording: Wording,
            if_known: bool = False) -> str | None:
    """One sentence naming the first condition that kept `words` out; None when they name nothing we know.

    if_known: nothing is said where that condition is merely unknown.
    """
    rules = _rules_named(words, rulebook, inference)
    if not rules:
        return None
    chosen = {firing.rule.id for firing in inference.firings}
    for aside in plan.set_aside:
        if any(rule.id == aside.rule for rule in rules):
            return f"It would fit, but {_plain(aside.why, rulebook)}."
    if fired := next((rule for rule in rules if rule.id in chosen), None):
        if fired.then.warn:  # "why not water" on burning fat: the danger itself is the answer
            return rulebook.catalogue.cautions[fired.then.warn[0]].says
        return f"It is not ruled out - {_sentence(fired.file.because)}"
    return _first_failure(rules, inference, wording, if_known)


def _first_failure(rules: list[Rule], inference: Inference, wording: Wording, if_known: bool) -> str | None:
    """The first condition that failed in the rule that came nearest."""
    blocked = {held_back.rule.id: held_back.by for held_back in inference.blocked}
    fitting = [rule for rule in rules if rule.id not in blocked or Condition(blocked[rule.id].name) not in rule.unless]
    rules = fitting or rules  # one that was only for want of a figure is no answer once the figure is there
    for rule in rules:
        if by := blocked.get(rule.id):
            return f"{rule.file.title} - not now, because of {_ground(by, wording)}."
    nearest = max(rules, key=lambda rule: _nearness(rule, inference))
    answers = [(holds(condition, inference), condition) for condition in nearest.when]
    failed = next((condition for holds_, condition in answers if holds_ is False), None)
    missing = next((condition for holds_, condition in answers if holds_ is None), None)
    if if_known and not (failed and failed.fact in inference.facts):
        return None
    if failed:
        known = inference.facts.get(failed.fact)
        stands = f"but {_ground(known, wording)}" if known else "but nothing speaks for that"
        return f"{nearest.file.title} - that is right only {_need(failed, wording)}, {stands}."
    return f"{nearest.file.title} - that is right only {_need(missing, wording)}; tell me whether it is so, and I can say."


def _plain(why: str, rulebook: Rulebook) -> str:
    """A reason of the plan with the titles of rules where it names their ids."""
    words = (f'"{rulebook.by_id[word].file.title}"' if word in rulebook.by_id else word for word in why.split())
    return " ".join(words).replace("_", " ")


def _nearness(rule: Rule, inference: Inference) -> tuple[int, int]:
    """How many conditions hold, then how many turn on something known: the rule a cook would have thought of."""
    known = sum(condition.fact in inference.facts for condition in rule.when)
    return sum(holds(condition, inference) is True for condition in rule.when), known


def _need(condition: Condition, wording: Wording) -> str:
    """A condition in words: "with where the dome is heading: falling"."""
    if condition.fact not in wording.vocabulary:
        return f"when I am sure enough of this: {condition.fact.replace('-', ' ')}"
    if wording.vocabulary[condition.fact].type == "flag":
        not_so = "" if True in condition.one_of else "it is not so that "
        return f"when {not_so}{wording.vocabulary[condition.fact].says}"
    values = [wording.say(condition.fact, value) for value in condition.one_of]
    bounds = [f"{test.replace('_', ' ')} {wording.say(condition.fact, bound)}" for test in NUMBER_TESTS
              if (bound := getattr(condition, test)) is not None]
    banned = [f"not {wording.say(condition.fact, value)}" for value in condition.none_of]
    says = wording.vocabulary[condition.fact].says
    return f"with {says}: {' or '.join(values) or ' and '.join(bounds + banned) or 'known'}"


def _rules_named(words: str, rulebook: Rulebook, inference: Inference) -> list[Rule]:
    """Rules whose step, finding, title or id the words name: those that touch this situation, else any."""
    named = [rule for rule in rulebook.of("recover", "diagnose", "safety") if not _speaks_only_against(rule)]
    near = [rule for rule in named if any(holds(condition, inference) for condition in rule.when)]
    for rules in (near, named):
        names = {rule.id: _name_of(rule, rulebook) for rule in rules}
        found = process.extract(words.lower(), names, scorer=fuzz.token_set_ratio, limit=MOST_NAMED,
                                score_cutoff=CLOSE_ENOUGH)
        if found:
            return [rulebook.by_id[rule_id] for _, _, rule_id in found]
    return []


def _speaks_only_against(rule: Rule) -> bool:
    return bool(rule.then.points_to) and all(weight < 0 for weight in rule.then.points_to.values())


def _name_of(rule: Rule, rulebook: Rulebook) -> str:
    acts = " ".join(f"{step.act} {rulebook.catalogue.acts[step.act].title}" for step in rule.then.steps or ())
    findings = " ".join(rule.then.points_to or ())
    return f"{rule.file.id} {rule.file.title} {acts} {findings}".lower().replace("-", " ").replace("_", " ")


def _because(firing: Firing, wording: Wording) -> str:
    return f"{_sentence(firing.rule.file.because)} ({_grounds(firing.used, wording)})"


def _grounds(used: Iterable[Fact], wording: Wording) -> str:
    return ", ".join(_ground(fact, wording) for fact in used) or "always"


def _ground(fact: Fact, wording: Wording) -> str:
    """One fact with where it came from: "the dome thermometer 350 °F, you said"."""
    if fact.name not in wording.vocabulary:
        return f"{fact.name.replace('-', ' ')}, of which I am {fact.value:.0%} sure"
    says = wording.vocabulary[fact.name].says
    sign = " under" if fact.name == "over_f" and float(fact.value) < 0 else ""
    return f"{says}: {wording.say(fact.name, fact.value)}{sign}, {ORIGIN_WORDS[fact.origin]}"


def _title(rule_id: str, inference: Inference) -> str:
    found: Firing | None = next((firing for firing in inference.firings if firing.rule.id == rule_id), None)
    return found.rule.file.title.lower() if found else rule_id


def _sentence(text: str) -> str:
    return text.strip().rstrip(".") + "."
