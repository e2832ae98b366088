"""The one door: free text typed beside a hot fire, turned into facts and intents, offline.

The stages, each in its own module: characters (normalise), tokens, words (words, spoken, quantities, clocks), moods,
cookers, then facts (temperatures, vents, phrases, foods), answers, corrections and intents.
"""

from dataclasses import replace

from advisor.errors import ValueRefused
from advisor.facts import Value
from advisor.language.answers import answer, is_refusal
from advisor.language.clocks import mark_clock_times
from advisor.language.cookers import apart, carried_over, meant_by_all, parts_of
from advisor.language.dictated import marks_for_words
from advisor.language.events import event_facts
from advisor.language.foods import food_facts
from advisor.language.heard import Context, Heard, Intent
from advisor.language.intents import done_steps, intents_of, is_all_done
from advisor.language.lexicon import Lexicon, lexicon_of
from advisor.language.message import Message
from advisor.language.moods import moods_of
from advisor.language.normalise import normalise
from advisor.language.phrases import phrase_facts
from advisor.language.quantities import join_quantities
from advisor.language.rates import rate_facts
from advisor.language.readings import reading_facts
from advisor.language.repairs import repaired
from advisor.language.run_on import told_apart
from advisor.language.settling import settle
from advisor.language.small_talk import LEAST_ALONE, is_about_the_fire
from advisor.language.spoken import join_spoken
from advisor.language.styles import style_of
from advisor.language.swings import to_and_fro
from advisor.language.tokens import Token, tokenise
from advisor.language.topics import topic_of
from advisor.language.turned import turned
from advisor.language.urgency import urgency
from advisor.language.vent_words import was_a_move
from advisor.language.vents import vent_facts
from advisor.language.words import mend, name, write_out
from advisor.vocabulary import Vocabulary

NOTHING_KNOWN = Context()


def hear(text: str, vocabulary: Vocabulary, context: Context = NOTHING_KNOWN) -> Heard:
    """`text` understood against what was known before. Never raises on any text."""
    lexicon = lexicon_of(vocabulary)
    tokens = read_tokens(text, lexicon)
    if not tokens:
        return Heard(intents=("off_topic",) if text.strip() else ())
    whole = Message(tokens, moods_of(tokens, lexicon), lexicon, context)
    message, of_all = apart(whole)
    parts = parts_of(message)
    read = carried_over(parts, [(part.cooker, _facts(part.message)) for part in parts])
    if of_all:
        shared = _facts(of_all)[0]
        read = [(name, (shared | facts, *rest)) for name, (facts, *rest) in read]
    cooker, (facts, unclear, _, style) = max(read, key=lambda one: urgency(one[1][0], lexicon))
    others = tuple((name or "", about[0]) for name, about in read if name != cooker)
    if cooker is None:
        others += tuple((name, dict(facts)) for name in meant_by_all(message, facts))
    vents = vent_facts(whole) if cooker is None else {}
    lost = tuple(name for fact, value in vents.items() if value is None for name in (fact, f"{fact}_in") if name not in facts)
    refused = tuple(sentence for _, about in read for sentence in about[2])
    return _heard(
        whole,
        Heard(facts=facts, cooker=cooker, others=others, unclear=unclear, lost=lost, refused=refused, units=style),
    )


def read_tokens(text: str, lexicon: Lexicon) -> list[Token]:
    """Tokens with short forms written out, misspellings mended, figures joined with their units, parts named, and what
    was taken back left out."""
    tokens = mend(write_out(tokenise(marks_for_words(normalise(text))), lexicon), lexicon)
    tokens = join_quantities(join_spoken(tokens))
    return repaired(told_apart(name(mark_clock_times(tokens, lexicon), lexicon), lexicon), lexicon)


def _facts(message: Message):
    """(facts, unclear, refused sentences, style) of the words about one cooker."""
    readings, phrases = reading_facts(message), phrase_facts(message)
    heard: dict[str, Value | None] = {
        **rate_facts(message, readings.scale or _known_scale(message)),
        **phrases,
        **vent_facts(message),
        **food_facts(message),
        **readings.facts,
    } | _told_trend(phrases)
    facts = {fact: value for fact, value in heard.items() if value is not None}
    facts |= turned(message)
    if swings := to_and_fro(message):
        facts = {name: value for name, value in facts.items() if name != "dome_f"} | swings
    facts |= event_facts(message, facts)
    if "vents_moved_ago_min" not in facts and None in heard.values() and was_a_move(message):
        facts["vents_moved_ago_min"] = 0.0
    if readings.unclear is None:
        facts |= answer(message, facts)
    facts = settle(message, facts)
    checked, refused = _believable(message.lexicon.vocabulary, facts)
    return checked, readings.unclear, refused, style_of(message, readings.scale)


def _told_trend(phrases: dict[str, Value]) -> dict[str, Value]:
    """A trend in words ("and holding now") stands before one drawn from figures."""
    return {"trend": phrases["trend"]} if "trend" in phrases else {}


def _leaves_open(message: Message, heard: Heard) -> bool:
    """ "No idea how the vents are, my wife is watching it": the question asked is refused, whatever else is told."""
    return message.context.asked is not None and message.context.asked not in heard.facts


def _is_about_this(message: Message) -> bool:
    """Whether a question without a topic is about the cook at all."""
    return any(token.text in ("it", "she", "this") for token in message.tokens) or is_about_the_fire(message)


def _brings_up_a_topic(message: Message, stated: bool, intents: list[Intent]) -> bool:
    """Whether a topic is asked about without a question: a grave one in any message, others in one that says nothing else."""
    data, topic = message.lexicon.data, topic_of(message, {})
    alone = not (stated or set(intents) - {"declined"} or message.context.asked)
    return topic in data["grave_topics"] or (alone and topic in data["told_topics"])


def _is_old_news(message: Message) -> bool:
    """Whether a reading is told that held some time ago ("last time I looked it was 245")."""
    return any(
        token.quantity
        and (token.quantity.kind == "degrees" or (token.quantity.kind == "number" and token.quantity.value >= LEAST_ALONE))
        and message.moods[at] in ("was", "bygone")
        for at, token in enumerate(message.tokens)
    )


def _known_scale(message: Message) -> str | None:
    return message.context.units.temperature if message.context.units else None


def _believable(vocabulary: Vocabulary, facts: dict[str, Value]) -> tuple[dict[str, Value], list[str]]:
    checked, refused = {}, []
    for fact, value in facts.items():
        try:
            checked[fact] = vocabulary.check(fact, value)
        except ValueRefused as error:
            refused.append(error.sentence())
    return checked, refused


def _heard(message: Message, heard: Heard) -> Heard:
    """The facts with intents and topic round them."""
    intents, argument = intents_of(message)
    supposed = _facts(message.supposed())[0] if "what_if" in intents else {}
    stated = heard.facts or heard.others
    if message.context.asked and not stated and is_refusal(message):
        intents.append("declined")
    if stated:
        intents = [intent for intent in intents if intent != "declined" or _leaves_open(message, heard)] + ["tell"]
    if _brings_up_a_topic(message, bool(stated), intents):
        intents = [intent for intent in intents if intent not in ("ask", "declined")] + ["ask"]
    loosely = not ("what_now" in intents and {"now", "next"} & {token.text for token in message.tokens})  # "charcoal is in, what now" asks for no word's meaning
    about = topic_of(message, heard.facts, loosely) if {"ask", "why", "why_not", "what_if"} & set(intents) else None
    if about:
        intents = [intent for intent in intents if intent != "cannot"]  # "is it too hot to touch" refuses no step
    if about in message.lexicon.data["topics_of_their_own"] and supposed.get("grease_fire") is not True:
        intents = [
            "ask",
            *(intent for intent in intents if intent not in ("ask", "why", "why_not", "what_if")),
        ]
        supposed = {}
    if set(intents) & {"cannot", "declined", "done", "thanks", "what_now", "correction", "undo"} and not about:
        intents = [intent for intent in intents if intent != "ask"]
    if message.tokens[-1].text == "?" and "done" in intents:
        intents = ["ask", *(intent for intent in intents if intent not in ("done", "ask"))]
    if heard.facts.keys() & set(message.lexicon.data["told_deeds"]):
        intents = [intent for intent in intents if intent != "done"]
    if "undo" in intents:
        intents = ["correction", "tell"] if stated else ["undo"]
    if not intents and not (heard.unclear or heard.refused):
        intents = ["old_news" if _is_old_news(message) else "off_topic"]
    if intents == ["ask"] and not about:
        intents = ["ask"] if stated or _is_about_this(message) else ["off_topic"]
    steps = done_steps(message) if "done" in intents else ()
    return replace(
        heard,
        intents=tuple(intents),
        about=about,
        argument=argument,
        supposed=supposed,
        done_steps=steps,
        all_done="done" in intents and is_all_done(message),
    )
