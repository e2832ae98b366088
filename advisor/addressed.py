"""Messages that do little more than name one of several cookers: "number two", "the left one is done". Pure."""

from dataclasses import replace

from advisor.cooknames import canonical
from advisor.language.heard import Heard
from advisor.language.normalise import bare_words

DONE = {"done", "finished"}


def addressed(words: str, heard: Heard) -> Heard:
    """`heard`, where a cooker's name alone asks what to do there, and its number is no step's unless a step is named."""
    if not heard.cooker or heard.facts or heard.others or heard.about or heard.unclear or heard.refused:
        return heard
    said = bare_words(words)
    if set(heard.intents) <= {"off_topic"}:
        return replace(heard, intents=("done",) if DONE & set(said[-1:]) else ("what_now",))
    numbers = tuple(map(str, heard.done_steps))
    if heard.intents == ("done",) and numbers == (canonical(heard.cooker),) and not {"step", "steps"} & set(said):
        return replace(heard, done_steps=())
    return heard
