"""What a message is heard against: the cooks as they stand, the question that is open, the units spoken so far. Pure."""

from advisor.language.heard import Context, Heard
from advisor.reply import QuestionAsked
from advisor.rulebook.loader import Rulebook
from advisor.stand import Stand
from advisor.units import UnitStyle
from advisor.wording import Wording

BY_THE_PERSON = ("said", "measured")


def context_of(stand: Stand, units: UnitStyle | None, rulebook: Rulebook, now: float,
               minute_of_day: int | None) -> Context:
    """The context of the next message about the cooker in hand."""
    cook = stand.cook
    known = {other.name: {name: fact.value for name, fact in other.situation.at(rulebook.vocabulary, now).items()}
             for other in stand.all}
    facts = known.pop(cook.name)
    asked, told = cook.asked, [fact for fact in cook.situation.facts.values() if fact.origin in BY_THE_PERSON]
    latest = max((fact.at_min for fact in told), default=now)
    return Context(asked=asked.fact if asked else None, choices=asked.choices if asked else (), facts=facts, units=units,
                   minute_of_day=minute_of_day, cookers=stand.names, current=cook.name, elsewhere=known,
                   recent=frozenset(fact.name for fact in told if fact.at_min == latest))


def unclear(heard: Heard, rulebook: Rulebook, wording: Wording) -> QuestionAsked | None:
    """The question when a figure could be in Fahrenheit or in Celsius."""
    if not heard.unclear:
        return None
    says = wording.fill(rulebook.catalogue.phrases["unclear"], {"said": heard.unclear.said})
    return QuestionAsked(fact=heard.unclear.could_be[0][0], says=says, choices=("Fahrenheit", "Celsius"),
                         because="the two are far apart")
