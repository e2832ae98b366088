"""Messages that ask about the advice instead of changing it: why, why not, what if. And small talk's set phrases."""

from collections.abc import Callable

from advisor.advice import Advice
from advisor.composing import Turn, answers_of, compose
from advisor.cook import Cook
from advisor.explanation import why, why_in_danger, why_not
from advisor.language.heard import Heard
from advisor.language.normalise import bare_words
from advisor.questions import KEEP_CLEAR, phrase
from advisor.reply import AnswerSaid, QuestionAsked, Reply
from advisor.rulebook.catalogue import Catalogue
from advisor.rulebook.loader import Rulebook
from advisor.telling import tell_amid_danger, tell_short
from advisor.wording import Wording

PHRASE_OF = {"greeting": "greeting", "thanks": "thanks", "off_topic": "off_topic", "old_news": "old_news", "cannot": "cannot",
             "declined": "declined", "correction": "corrected", "done": "done"}

NODS = {"ok", "okay", "alright", "right"}
SHORTEST_TALK = 2  # "huh", "yes", "lol what": too little to be about anything else

ASKING = {"why", "why_not", "what_if"}

Advise = Callable[..., Advice]


def aside(heard: Heard, cook: Cook, advise: Advise, now: float, wording: Wording, rulebook: Rulebook,
          turn: Turn) -> Reply | None:
    """The answer to a why, why not or what if; None for any other message. Situation and steps stay as they are.

    turn: what stands around it, such as dangers on other cookers.
    """
    if heard.facts or not ASKING & set(heard.intents):
        return None
    advice = advise(cook.situation, now, wording, asking=False)
    phrases = rulebook.catalogue.phrases
    standing = compose(turn, cook.name, advice, cook.asked, rulebook.catalogue, wording)
    answers = _answers(heard, cook, advise, now, wording)
    standing = standing.model_copy(update={"answers": answers})
    lines = [answer.says for answer in answers]  # "why should I wait" asks about the trade as well
    if "what_if" in heard.intents and (heard.supposed or not lines):
        return _what_if(heard, cook, advise, now, wording, rulebook, standing)
    if "why_not" in heard.intents:
        line = why_not(heard.argument, rulebook, advice.inference, advice.plan, wording, if_known=bool(lines))
        lines = [*lines, line] if line else lines or [phrases["why_not_unknown"]]
    elif not lines and advice.plan.at_stake:
        lines = why_in_danger(advice.inference, advice.plan)
    lines = lines or why(advice.inference, advice.plan, wording, phrases) or [phrases["nothing_to_explain"]]
    return _saying(standing, lines, phrases, amid_danger=advice.plan.is_emergency)


def would_help(advice: Advice, rulebook: Rulebook, wording: Wording) -> QuestionAsked:
    """What to ask when a message could not be used and no question stands open: whether the emergency lasts, or a
    fresh reading."""
    urgent = [firing for firing in advice.plan.chosen if firing.rule.then.standing == "emergency"]
    grounds = [*urgent, *advice.inference.firings] if urgent else []
    lasts = (fact.name for firing in grounds for fact in firing.used
             if fact.value is True and fact.name in rulebook.vocabulary and rulebook.vocabulary[fact.name].ask)
    keeps_clear = urgent or KEEP_CLEAR in advice.facts
    openers = (rulebook.catalogue.openers_in_danger if keeps_clear else ()) or rulebook.catalogue.openers
    return phrase(next(lasts, openers[0]), rulebook, advice.inference, wording)


def _answers(heard: Heard, cook: Cook, advise: Advise, now: float, wording: Wording) -> tuple[AnswerSaid, ...]:
    """What rules of teach/ say to the topic of the question, if it has one."""
    if not heard.about:
        return ()
    advice = advise(cook.situation, now, wording, {"about": heard.about}, asking=False, forecasting=False)
    return answers_of(advice, wording, reasons=bool({"why", "why_not"} & set(heard.intents)))


def _saying(standing: Reply, lines: list[str], phrases: dict[str, str], amid_danger: bool = False) -> Reply:
    """The standing reply with other words; a danger that lasts is in them all the same, and the steps while it burns."""
    if amid_danger:
        text = tell_amid_danger(standing.cautions, lines, standing.steps, standing.asks, phrases)
        return standing.model_copy(update={"text": text})
    return standing.model_copy(update={"text": tell_short(standing.cautions, lines, standing.asks, phrases)})


def _what_if(heard: Heard, cook: Cook, advise: Advise, now: float, wording: Wording, rulebook: Rulebook,
             standing: Reply) -> Reply:
    """What was imagined, as a reply of its own; it asks only when it could not say anything else."""
    phrases = rulebook.catalogue.phrases
    if not heard.supposed:
        return _saying(standing, [phrases["what_if_unclear"]], phrases)
    imagined = cook.situation.tell(heard.supposed, "assumed", rulebook.vocabulary, now)
    advice = advise(imagined, now, wording, forecasting=False)
    asks = None if advice.plan.steps else advice.question
    inner = compose(Turn(heard.supposed, {}), cook.name, advice, asks, rulebook.catalogue, wording)
    still = [caution for caution in standing.cautions if caution not in inner.cautions]
    said = [answer.says for answer in standing.answers]
    text = tell_short(still, [*said, inner.text], None if asks else standing.asks, phrases)
    return standing.model_copy(update={"what_if": inner, "text": text, "asks": None if asks else standing.asks})


def set_phrases(words: str, heard: Heard, cook: Cook, catalogue: Catalogue) -> tuple[str, ...]:
    """Lines that come before the advice: what could not be taken, and the answer to small talk."""
    lines = list(heard.refused)
    if not (heard.understood or heard.intents):
        lines.append(catalogue.phrases["not_understood"])
    names = [PHRASE_OF[intent] for intent in heard.intents if intent in PHRASE_OF]
    if heard.facts or heard.others or heard.about:
        names = [name for name in names if name != "greeting"]  # who has told that much needs no invitation
    if "off_topic" in names:
        names[names.index("off_topic")] = _how_unused(words, cook, catalogue)
    if heard.intents == ("ask",) and not (heard.facts or heard.others or heard.about or cook.situation.facts):
        names.append("no_answer")
    if cook.asked is None:
        names = [name for name in names if name != "declined"]  # nothing was asked that could be left open
    if not cook.steps:
        names = [name for name in names if name != "cannot"]
    begins = not (heard.facts or heard.about or cook.situation.facts)
    if "what_now" in heard.intents and begins and words.lower().strip(" .!?") not in NODS:
        names.append("first_look")
    if not set(heard.facts) & set(cook.situation.facts):
        names = [name for name in names if name != "corrected"]
    return (*lines, *(catalogue.phrases[name] for name in names))


def _how_unused(words: str, cook: Cook, catalogue: Catalogue) -> str:
    """The phrase for what could not be used: off the subject only where nothing of fire, cooker or food is named, and
    none is under way."""
    said = bare_words(words, digits=False)
    if any(word.removesuffix("s") in catalogue.trade_words or word in catalogue.trade_words for word in said):
        return "not_used"
    if cook.situation.facts and len(said) > SHORTEST_TALK:
        return "not_used"
    return "off_topic" if len(said) > SHORTEST_TALK else "not_understood"
