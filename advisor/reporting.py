"""What a message reports, read against the cook it is about: facts entailed, facts taken back, steps done. Pure."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from advisor.changes import VENTS
from advisor.cook import Cook, is_near
from advisor.facts import Value
from advisor.language.heard import Heard
from advisor.language.normalise import bare_words
from advisor.rulebook.loader import Rulebook
from advisor.vocabulary import Vocabulary

DEED = {"i", "ive", "we", "opened", "closed", "set", "put", "turned", "pushed", "now"}  # it was done, not only so
ALL_OF_IT = {"done", "did", "sorted", "all", "everything", "both", "finished"}  # it is not of one vent alone
SMALL_TALK = {"greeting", "thanks", "off_topic", "old_news"}


def stated(heard: Heard) -> Heard:
    """The message without facts that it only supposes: "what if it rises" answers no question that stands open."""
    facts = {name: value for name, value in heard.facts.items() if heard.supposed.get(name) != value}
    return replace(heard, facts=facts)


def as_reported(words: str, heard: Heard, cook: Cook) -> Heard:
    """The message with `done` where it tells vents to be put as a step in hand would put them and nobody knew them so before.

    "I have shut the bottom and the top" reports the same deed as "ok, shut both"; "both are wide open" says how they stand.
    """
    set_now = _set_in_hand(cook)
    shown = [name for name in _as_advised(heard.facts, cook)
             if not (name in cook.situation.facts and is_near(float(cook.situation.facts[name].value), set_now[name][1]))]
    said = set(bare_words(words, digits=False))
    if {"correction", "ask"} & set(heard.intents) or not ("done" in heard.intents or shown and DEED & said):
        return heard
    if shown and not (heard.done_steps or heard.all_done or ALL_OF_IT & said) and len(shown) < len(set_now):
        heard = replace(heard, done_steps=tuple(set_now[name][0] for name in shown))  # "opened the top a crack": the bottom is to come
    return heard if "done" in heard.intents else replace(heard, intents=("done", *heard.intents))


def _set_in_hand(cook: Cook) -> dict[str, tuple[int, float]]:
    """By vent, the step in hand that sets it and how far."""
    due = cook.steps_in_hand()
    return {f"{step.parameters['vent']}_vent": (step.n, float(step.parameters["opening"])) for step in cook.steps
            if step.n in due and step.act == "set_vent"}


def _as_advised(told: Mapping[str, Value], cook: Cook) -> dict[str, Value]:
    """The openings told that are those of steps in hand, as exactly as these: "a crack" is the crack that was advised."""
    return {name: opening for name, (_, opening) in _set_in_hand(cook).items() if name in told and is_near(float(told[name]), opening)}


def completed(heard: Heard, cook: Cook) -> Mapping[str, Value]:
    """What the words state, with what they plainly entail here.

    A reading given in answer to our question belongs to the distance told before: that says the target.
    Vents reported done were moved just now.
    """
    facts, asked, over = {**heard.facts, **_as_advised(heard.facts, cook)}, cook.asked, cook.situation.facts.get("over_f")
    if asked and asked.fact == "dome_f" and "dome_f" in facts and over and not {"target_f", "over_f"} & set(facts):
        return {**facts, "target_f": float(facts["dome_f"]) - float(over.value)}
    if asked and asked.fact == "food_on" and "food" in facts:
        facts = {"food_on": True, **facts}  # "its ribs", to the question whether food is on
    if "done" in heard.intents and set(VENTS) & set(facts):
        return {"vents_moved_ago_min": 0.0, **facts}
    return facts


def passing(heard: Heard, vocabulary: Vocabulary) -> dict[str, Value]:
    """What holds for this message only: its question, and facts that do not last."""
    told = {name: value for name, value in heard.facts.items() if name in vocabulary.for_one_message}
    return told | ({"about": heard.about} if heard.about else {})


def taken_back(heard: Heard) -> Iterable[str]:
    """The facts that a correction ("no, I meant 300") puts right."""
    return heard.facts if "correction" in heard.intents else ()


def steps_done(heard: Heard, cook: Cook, rulebook: Rulebook) -> tuple[int, ...]:
    """Which steps a report of "done" means: those named, all, or those in hand that the words don't gainsay."""
    if heard.all_done:
        return tuple(step.n for step in cook.steps if not step.when)
    if heard.done_steps:
        return tuple(step.n for step in cook.steps if step.n in heard.done_steps)
    return cook.steps_in_hand_that_agree(heard.facts, rulebook)


def declined(words: str, heard: Heard, cook: Cook, vocabulary: Vocabulary) -> tuple[str, ...]:
    """The facts a refusal is about: those it names ("stop asking about the smoke"), else the question that stands open."""
    if "declined" not in heard.intents:
        return ()
    said = f" {' '.join(bare_words(words))} "
    named = tuple(fact for fact in vocabulary.askable if fact not in heard.facts
                  and any(f" {name} " in said for name in _names_of(fact, vocabulary)))
    return named or ((cook.asked.fact,) if cook.asked else ())


def _names_of(fact: str, vocabulary: Vocabulary) -> tuple[str, ...]:
    name = vocabulary[fact].says.removeprefix("the ")
    return (name, "vents") if name.endswith(" vent") else (name,)


def vent_meant(words: str) -> str | None:
    """Which vent "can't shut the top" is about: the one named last."""
    named = [word for word in words.lower().split() if word.strip(".,!") in ("top", "bottom")]
    return named[-1].strip(".,!") if named else None


def usable(heard: Heard) -> bool:
    """Whether the message brought anything to go on; a refused value or small talk off the subject does not."""
    return bool(heard.facts or heard.others or heard.about or heard.unclear or set(heard.intents) - {"off_topic"})


def is_small_talk(heard: Heard) -> bool:
    """Whether a short answer will do: nothing was told, asked or refused."""
    told = heard.facts or heard.others or heard.about or heard.unclear or heard.refused
    return not told and set(heard.intents) <= SMALL_TALK
