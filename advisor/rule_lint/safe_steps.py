"""safe-steps: no step without the caution it needs.

Avoid
    an act with opens_lid but without open-a-crack-first among its `needs`; a caution that an act needs but that does
    not bear on it (it would never be shown); a step that speaks of opening the lid, of water or of a roofed place
    under an act that brings no such caution
        - {act: wait, says: Open the lid and let it air.}
        - {act: stir_fuel, says: Splash a little water on the fat.}
Prefer
    - {act: burp_lid, crack_in: 1, hold_s: 20, times: 1, says: "Burp it - lid up {crack_in}, 20 seconds, close."}
Why
    Cautions hang on the act, not on the words. Words that ask for a dangerous move under a harmless act slip past
    every one of them: air on a starved fire flares, water throws burning fat about, a roof keeps the gas in.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rulebook.catalogue import Act, Caution
from advisor.rulebook.schema import Rule, Step

ID = "safe-steps"
CRACK_FIRST = "open-a-crack-first"
NEGATED = re.compile(r"\b(never|no|not|don't|do not|without|instead of|leave|out of|away from|keep)\b",
                     re.IGNORECASE)


@dataclass(frozen=True)
class Danger:
    """Words in a step that ask for a caution; covered: how a caution is known that speaks of it; acts: fit as they are."""

    words: re.Pattern[str]
    covered: re.Pattern[str]
    what: str
    acts: tuple[str, ...] = ()


def _words(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


DANGERS = (
    Danger(_words(r"\b(open|lift|raise|crack)( up)? (the|your) lid\b|\blid (up|open)\b|^\W*((now|then|and) )?burp\b"),
           _words(CRACK_FIRST), "opens the lid"),
    Danger(_words(r"\b(water|hose|douse|splash|wet (it|the|down))\b"), _words(r"water|liquid"), "puts water to use",
           ("cool_burn", "check_thermometer", "probe_food", "discard_food")),
    Danger(_words(r"\b(indoors|garage|shed|tent|carport|awning|inside the house|under (a|the) roof)\b"),
           _words(r"roof|garage|indoors|monoxide"), "speaks of a roofed place",
           ("move_outdoors", "get_people_out", "keep_people_away", "call_fire_service")),
)


def check(material: Material) -> Iterator[Issue]:
    for name, act in material.catalogue.acts.items():
        yield from _of_act(name, act, material)
    for rule in material.of("recover"):
        for number, step in enumerate(rule.then.steps or ()):
            yield from _of_step(rule, number, step, material)


def _of_act(name: str, act: Act, material: Material) -> Iterator[Issue]:
    known = {need: material.catalogue.cautions[need] for need in act.needs if need in material.catalogue.cautions}
    first = known.get(CRACK_FIRST)
    if act.opens_lid and (first is None or first.level != "danger"):
        yield material.listed(ID, "acts.yaml", ["acts", name], f"{name} opens the lid without {CRACK_FIRST} as a danger",
                              "air on a starved fire flares", f"add {CRACK_FIRST} to its `needs`")
    for need, caution in known.items():
        if caution.level != "danger" and caution.bears_on and name not in caution.bears_on:
            yield material.listed(ID, "cautions.yaml", ["cautions", need], f"{name} needs {need}, which does not bear "
                                  "on it", "it would never be shown", f"add {name} to its `bears_on`")


def _of_step(rule: Rule, number: int, step: Step, material: Material) -> Iterator[Issue]:
    act = material.catalogue.acts[step.act]
    cautions = {name: material.catalogue.cautions[name] for name in act.needs if name in material.catalogue.cautions}
    for danger in DANGERS:
        if step.act not in danger.acts and not _covered(danger, cautions) and (said := _asks_for(danger, step.says)):
            yield material.issue(ID, rule, ["then", "steps", number], f"the step {said!r} {danger.what}",
                                 f"{step.act} brings no caution for that", "use the act that does, or say it otherwise")


def _covered(danger: Danger, cautions: dict[str, Caution]) -> bool:
    return any(danger.covered.search(f"{name} {caution.says}") for name, caution in cautions.items())


def _asks_for(danger: Danger, says: str) -> str | None:
    """The clause that asks for the dangerous thing; a clause with a "never" or "no" ahead of it forbids it."""
    for clause in re.split(r"[.;:!?,]|\s-\s", says):
        found = danger.words.search(clause)
        if found and not NEGATED.search(clause[:found.start()]):
            return clause.strip()
    return None
