"""What a question is about: the topic that rules of teach/ answer."""

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.patterns import Match

GENERAL_YIELDS = 2
STOOD_OUT = {"out_of_fridge_min", "danger_zone_for_min", "cooling_for_min"}  # such food is judged, whatever is asked of it
ASKED = ("ask", "plan")  # moods of a question


def topic_of(message: Message, facts: dict[str, Value], loosely: bool = False) -> str | None:
    """The topic of the question: the longest pattern wins, the earlier of two equal ones.

    A question as vague as "should I worry" is about what the message tells, else about what was told last.
    loosely: also by the words that stand in the message in any order, where they are more than a pattern names.
    """
    found = [
        match
        for match in message.lexicon.topics.find(message.tokens)
        if message.moods[match.start] != "elsewhere"
    ]
    asked = {match.start for match in found if message.moods[match.start] in ASKED}
    best = max(found, key=lambda match: (match.start in asked, len(match), -match.start)) if found else None
    topic = best.means if best else None
    worries = facts.keys() & message.lexicon.data["worries"].keys() if _is_vague(message) else ()
    if loosely and not worries and (loose := _by_its_words(message, _weight(best, message))):
        return "food_safe" if STOOD_OUT & facts.keys() and loose in ("cold_meat", "time_out") else loose
    return topic if topic not in (None, "leave_alone") else _worry(message, facts) or topic


def _worry(message: Message, facts: dict[str, Value]) -> str | None:
    """What a vague question is about: what the message tells, and what was told last where it tells nothing."""
    if not _is_vague(message):
        return None
    worries = message.lexicon.data["worries"]
    return next((worries[fact] for fact in facts or message.context.recent if fact in worries), None)


def _weight(best: Match | None, message: Message) -> int:
    """How many words must stand against a phrase; one as general as "how long" is easily outdone."""
    if best is None:
        return 0
    return len(best) - (GENERAL_YIELDS if best.means in message.lexicon.data["general_topics"] else 0)


def _by_its_words(message: Message, more_than: int) -> str | None:
    """The first topic with most of its words in the message, in any order, if they are more than `more_than`."""
    there = {word for token in message.tokens for word in (token.text, token.lemma, *token.names)}
    there |= {f"<{token.quantity.kind}>" for token in message.tokens if token.quantity}
    fitting = [
        (len(words), topic)
        for topic, words in message.lexicon.loose_topics
        if len(words) > more_than and all(one_of & there for one_of in words)
    ]
    return max(fitting, key=lambda one: one[0])[1] if fitting else None


def _is_vague(message: Message) -> bool:
    return any(token.text in message.lexicon.data["vague"] for token in message.tokens)
