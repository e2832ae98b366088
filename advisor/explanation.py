"""Firings to kitchen words: why this advice, and why not another. Reads records; concludes nothing."""

from collections.abc import Iterable

from rapidfuzz import fuzz, process

from advisor.facts import Fact
from advisor.inference.records import Firing, Inference
from advisor.lacking import holds
from advisor.plan import Plan
from advisor.reply import FiringSaid, UsedFact
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import Rule
from advisor.wording import Wording

ORIGIN_WORDS = {"said": "you said", "measured": "measured", "derived": "worked out", "assumed": "assumed",
                "learned": "learned from this cooker", "forecast": "forecast"}
CLOSE_ENOUGH = 70  # rapidfuzz token_set_ratio: below it the words name nothing we know


def firings_said(inference: Inference) -> tuple[FiringSaid, ...]:
    """All firings of one inference for programs."""
    return tuple(FiringSaid(n=firing.n, rule=firing.rule.id, gave=firing.gave, because=firing.rule.file.because,
                            used=tuple(UsedFact(fact=f.name, value=f.value, origin=f.origin) for f in firing.used))
                 for firing in inference.firings)


def why(inference: Inference, plan: Plan, wording: Wording) -> list[str]:
    """Lines that lead from what was told to what is advised."""
    lines = [f"{_sentence(firing.rule.file.because)} ({_grounds(firing.used, wording)})" for firing in plan.chosen]
    for held in inference.findings:
        finding = f"{held.id.replace('-', ' ')}: {held.certainty:.0%} sure"
        weights = ", ".join(f"{evidence.weight:+.2f} {_title(evidence.rule, inference)}" for evidence in held.evidence)
        lines.append(f"{finding} - {weights}.")
    derived = [firing for firing in inference.fired("understand")]
    lines += [f"{_sentence(firing.rule.file.because)} ({_grounds(firing.used, wording)})" for firing in derived]
    lines += [f"Set aside: {aside.rule.partition('/')[2]} - {aside.why}." for aside in plan.set_aside]
    return lines


def why_not(words: str, rulebook: Rulebook, inference: Inference, plan: Plan, wording: Wording) -> str | None:
    """One sentence naming the first condition that kept `words` out; None when they name nothing we know."""
    rules = _rules_named(words, rulebook)
    if not rules:
        return None
    chosen = {firing.rule.id for firing in inference.firings}
    for aside in plan.set_aside:
        if any(rule.id == aside.rule for rule in rules):
            return f"{aside.rule}: it would fit, but {aside.why}."
    if fired := next((rule for rule in rules if rule.id in chosen), None):
        return f"It is not ruled out: {fired.id} fired - {_sentence(fired.file.because)}"
    return _first_failure(rules, inference, wording)


def _first_failure(rules: list[Rule], inference: Inference, wording: Wording) -> str:
    """The first condition that failed in the rule that came nearest."""
    blocked = {held_back.rule.id: held_back.by for held_back in inference.blocked}
    for rule in rules:
        if by := blocked.get(rule.id):
            return f"{rule.id}: held back because {_ground(by, wording)}."
    nearest = max(rules, key=lambda rule: sum(holds(condition, inference) is True for condition in rule.when))
    failed = [condition for condition in nearest.when if holds(condition, inference) is False]
    missing = [condition for condition in nearest.when if holds(condition, inference) is None]
    if failed:
        known = inference.facts.get(failed[0].fact)
        stands = f"; {_ground(known, wording)}" if known else "; nothing speaks for that"
        return f"{nearest.id}: it needs that {failed[0]}{stands}."
    return f"{nearest.id}: it needs that {missing[0]}, and that is not known."


def _rules_named(words: str, rulebook: Rulebook) -> list[Rule]:
    """Rules whose step, finding, title or id the words name, best match first."""
    names = {rule.id: _name_of(rule, rulebook) for rule in rulebook.of("recover", "diagnose", "safety")}
    found = process.extract(words.lower(), names, scorer=fuzz.token_set_ratio, limit=8, score_cutoff=CLOSE_ENOUGH)
    return [rulebook.by_id[rule_id] for _, _, rule_id in found]


def _name_of(rule: Rule, rulebook: Rulebook) -> str:
    acts = " ".join(f"{step.act} {rulebook.catalogue.acts[step.act].title}" for step in rule.then.steps or ())
    findings = " ".join(rule.then.points_to or ())
    return f"{rule.file.id} {rule.file.title} {acts} {findings}".lower().replace("-", " ").replace("_", " ")


def _grounds(used: Iterable[Fact], wording: Wording) -> str:
    return ", ".join(_ground(fact, wording) for fact in used) or "always"


def _ground(fact: Fact, wording: Wording) -> str:
    """One fact with where it came from: "the dome thermometer 350 °F, you said"."""
    if fact.name not in wording.vocabulary:
        return f"{fact.name.replace('-', ' ')} {fact.value:.0%} sure"
    says = wording.vocabulary[fact.name].says
    sign = " under" if fact.name == "over_f" and float(fact.value) < 0 else ""
    return f"{says}: {wording.say(fact.name, fact.value)}{sign}, {ORIGIN_WORDS[fact.origin]}"


def _title(rule_id: str, inference: Inference) -> str:
    found: Firing | None = next((firing for firing in inference.firings if firing.rule.id == rule_id), None)
    return found.rule.file.title.lower() if found else rule_id


def _sentence(text: str) -> str:
    return text.strip().rstrip(".") + "."
