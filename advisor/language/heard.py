"""What goes into understanding a message (Context) and what comes out of it (Heard). No logic."""

from dataclasses import dataclass, field
from typing import Literal

from advisor.facts import Value
from advisor.units import UnitStyle

Intent = Literal[
    "tell",  # facts about the cook
    "ask",  # a question about the trade; `about` may name it
    "why",  # why this advice?
    "why_not",  # why not <argument>?
    "what_if",  # what if <argument>? nothing is taken as fact
    "which_first",  # which of several cookers needs somebody first?
    "what_now",  # where do things stand?
    "done",  # steps carried out; `done_steps` names them
    "cannot",  # "can't do that"; the step in hand is impossible
    "declined",  # "no idea" to the question that was asked
    "correction",  # "no, I meant 250"
    "undo",  # "scratch that": the last message counts as not said
    "greeting",
    "thanks",
    "old_news",  # a reading of some time ago, and nothing of now
    "off_topic",
]


@dataclass(frozen=True, slots=True)
class Context:
    """What was known when the words were spoken; everything optional.

    asked:     the fact the last reply asked for, with its choices
    facts:     the situation now (name -> value), to settle units, corrections and which reading is meant
    units:     the style the person has used so far; None when not known yet
    minute_of_day: local clock, for "eating at 7"
    cookers:   names of cookers already going
    current:   which of them is in hand ("" where none was named); elsewhere: what is known of the others, by name
    recent:    the facts that the last telling brought, for a correction that names none
    """

    asked: str | None = None
    choices: tuple[str, ...] = ()
    facts: dict[str, Value] = field(default_factory=dict)
    units: UnitStyle | None = None
    minute_of_day: int | None = None
    cookers: tuple[str, ...] = ()
    current: str = ""
    elsewhere: dict[str, dict[str, Value]] = field(default_factory=dict)
    recent: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Unclear:
    """A figure that could mean two things: the words, and the readings as (fact, value) to choose from."""

    said: str
    could_be: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class Heard:
    """One message understood.

    facts:      stated in this message alone about the cooker in hand (or `cooker`), units of the vocabulary
    about:      the topic of a question (a value of the vocabulary's `about`), or None
    cooker:     the cooker named, as said and normalised ("2", "left"), or None
    others:     facts about further cookers named in the same message, in the order named
    units:      the style used in this message where it shows one, else None
    argument:   the words after "why not", "what if"
    supposed:   for what_if: the facts imagined
    done_steps: numbers of the steps reported done; () with intent done means "the step in hand"
    all_done:   "all of it is done"
    lost:       facts that are known no longer, as a vent was moved by nobody knows how much
    unclear:    a figure left open; `refused`: sentences on values that cannot be right ("5000 °F ...")
    """

    facts: dict[str, Value] = field(default_factory=dict)
    intents: tuple[Intent, ...] = ()
    about: str | None = None
    cooker: str | None = None
    others: tuple[tuple[str, dict[str, Value]], ...] = ()
    units: UnitStyle | None = None
    argument: str = ""
    supposed: dict[str, Value] = field(default_factory=dict)
    done_steps: tuple[int, ...] = ()
    all_done: bool = False
    unclear: Unclear | None = None
    lost: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()

    @property
    def understood(self) -> bool:
        """Whether anything in the message can be used."""
        return bool(
            self.facts
            or self.others
            or self.about
            or self.unclear
            or self.refused
            or set(self.intents) - {"off_topic"}
        )
