"""A short answer to the question that was asked: "yep", "half", "about an hour", "white", "no idea"."""

from advisor.facts import Value
from advisor.language.answer_figures import is_spoken_for, number_answer, speaks_of_another
from advisor.language.follow_ups import follow_ups
from advisor.language.message import Message
from advisor.language.patterns import Match
from advisor.language.replies import corrects, reply_of
from advisor.language.tokens import Token
from advisor.language.topics import topic_of
from advisor.vocabulary import FactDefinition

LONGEST_ANSWER = 8
NEWS_AFTER_A_NO = {"no it", "no they", "no she"}
NO_ANSWER = {"ask", "plan", "suppose"}


def answer(message: Message, heard: dict[str, Value]) -> dict[str, Value]:
    """What the message says about the fact in context.asked, where the words alone did not tell it."""
    asked = message.context.asked
    if not asked or asked not in message.lexicon.vocabulary or asked in heard:
        return {}
    if heard and corrects(message):
        return {}  # "no, I meant 250" is no answer
    if set(message.moods) <= NO_ANSWER:
        return {}  # "should I shut the vents" asks in its turn
    fact = message.lexicon.vocabulary[asked]
    if message.tokens[-1].text == "?" and fact.type in ("flag", "choice") and topic_of(message, {}):
        return {}  # "good to go?" asks in its turn, too
    if fact.type == "flag":
        return _flag(message, asked, heard)
    if len(message.tokens) > LONGEST_ANSWER or is_spoken_for(message, heard, fact.type):
        return {}
    if fact.type == "choice":
        return _choice(message, asked, fact)
    if fact.is_number:
        offered = {} if speaks_of_another(message) else _offered(message, asked, fact)
        return number_answer(message, fact) or _short(message, asked) or offered
    text = message.words()
    return {asked: text} if text and not heard else {}


def _flag(message: Message, asked: str, heard: dict[str, Value]) -> dict[str, Value]:
    reply = reply_of(message)
    if reply is None or corrects(message):
        return _by_choice(message, asked) or _short(message, asked)
    if (heard or follow_ups(message, heard)) and message.words(reply.start, reply.end + 1) in NEWS_AFTER_A_NO:
        return {}  # "no it stopped", said of what burns
    return {asked: (reply.means == "yes") == _yes_means(message, asked)}


def _yes_means(message: Message, asked: str) -> bool:
    """What "yes" stands for: what the first thing offered means ("open air": not indoors)."""
    ask = message.lexicon.vocabulary[asked].ask
    if ask is None or not ask.choices or ask.choices[0] == "yes":
        return True
    first = [
        Token(word, "word", lemma=message.lexicon.lemmas.get(word, "")) for word in ask.choices[0].split()
    ]
    found = message.lexicon.loose_answers(asked).find(first)
    return bool(max(found, key=len).means) if found else True


def _short(message: Message, asked: str) -> dict[str, Value]:
    """A word or two that answer this question alone."""
    if len(message.tokens) > LONGEST_ANSWER:
        return {}
    found = [match for match in message.lexicon.short_answers(asked).find(message.tokens)
             if not _is_of_another(message, match, asked)]
    if not found:
        return {}
    value = max(found, key=len).means
    return {asked: value if isinstance(value, bool | str) else float(value)}


def _is_of_another(message: Message, match: Match, asked: str) -> bool:
    """Whether the words are part of a longer phrase on something else: "bottom burnt, top raw" says nothing of a smell."""
    return any(match.overlaps(other) and len(other) > len(match) and other.means[0] != asked
               for other in message.lexicon.phrases.find(message.tokens))


def _offered(message: Message, asked: str, fact: FactDefinition) -> dict[str, Value]:
    """One of the choices said in its own words, where each choice has its answer."""
    ask = fact.ask
    if ask is None or len(ask.choices) != len(ask.answers):
        return {}
    words = set(message.words().split())
    for choice, likely in zip(ask.choices, ask.answers, strict=True):
        if set(choice.split()) <= words:
            return {asked: likely.value if isinstance(likely.value, bool | str) else float(likely.value)}
    return {}


def _by_choice(message: Message, asked: str) -> dict[str, Value]:
    """ "open" to "is the lid open or shut?": the first choice is true, the second false, as the question offers."""
    fact = message.lexicon.vocabulary[asked]
    choices = fact.ask.choices if fact.ask else ()
    if choices[:1] == ("yes",):
        return {}
    words = set(message.words().split())
    first = _yes_means(message, asked)
    for value, choice in zip((first, not first), choices, strict=False):
        if words and set(choice.split()) <= words:
            return {asked: value}
    return {}


def _choice(message: Message, asked: str, fact: FactDefinition) -> dict[str, Value]:
    words = set(message.words().split())
    for value in fact.values:
        if set(value.split("_")) <= words:
            return {asked: value}
    offered = message.context.choices or (fact.ask.choices if fact.ask else ())
    for choice, value in zip(offered, fact.values, strict=False):
        if len(offered) == len(fact.values) and set(choice.split()) <= words:
            return {asked: value}
    loose = message.lexicon.loose_answers(asked).find(message.tokens)
    if loose:
        return {asked: max(loose, key=len).means}
    short = _short(message, asked)
    if short:
        return short
    reply = reply_of(message)
    if reply and reply.means == "no" and "none" in fact.values:
        return {asked: "none"}
    return {}


def is_refusal(message: Message) -> bool:
    """A "no" or "maybe" that leaves the question as open as it was ("no wood" to "how long ago?")."""
    reply = reply_of(message)
    return bool(reply and reply.means == "no") or message.words() in (
        "maybe",
        "perhaps",
        "possibly",
        "both",
        "neither",
    )
