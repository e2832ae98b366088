"""Short news of something told before, which the words alone do not name: "gone now", "closed it"."""

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.patterns import Match


def follow_ups(message: Message) -> dict[str, Value]:
    """What short words say of a fact that stands (patterns: `follow_ups` in language.yaml)."""
    heard: dict[str, Value] = {}
    for match in message.lexicon.follow_ups.find(message.tokens):
        after, fact, value = match.means
        if (
            _stands(message, after)
            and message.moods[match.start] == "said"
            and not _names_another(message, match)
        ):
            heard[fact] = value
    return heard


def _stands(message: Message, after: str) -> bool:
    """Whether the fact was told before, or its name stands in the message itself."""
    return message.context.facts.get(after) not in (None, False, "none") or any(
        token.lemma == after for token in message.tokens
    )


def _names_another(message: Message, match: Match) -> bool:
    """Whether the clause names a part that the short words then speak of ("the bottom vent is clear now")."""
    start, end = message.clause(match.start)
    return any(token.named for token in message.tokens[start:end])
