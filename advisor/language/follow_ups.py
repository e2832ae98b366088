"""Short news of something told before, which the words alone do not name: "gone now", "closed it"."""

from collections.abc import Mapping

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.patterns import Match


def follow_ups(message: Message, told: Mapping[str, Value]) -> dict[str, Value]:
    """What short words say of a fact that stands (patterns: `follow_ups` in language.yaml). told: by this message."""
    heard: dict[str, Value] = {}
    for match in message.lexicon.follow_ups.find(message.tokens):
        after, fact, value = match.means
        if (
            _stands(message, told, after, match)
            and message.moods[match.start] == "said"
            and not _names_another(message, match)
        ):
            heard[fact] = value
    return heard


def _stands(message: Message, told: Mapping[str, Value], after: str, match: Match) -> bool:
    """Whether the fact was told before, or in an earlier clause, or its name stands in the message itself."""
    if after == "flames" and message.context.facts.get("fire_spreads") is True:
        return False  # "it's out" is said of what burns beside the cooker
    if told.get(after) is True and message.clause(match.start)[0] > 0:
        return True
    return message.context.facts.get(after) not in (None, False, "none") or any(
        token.lemma in (after, _part(after)) for token in message.tokens
    )


def _part(after: str) -> str:
    """The part that a fact such as "deflector_in", "lid_open" is about."""
    name, _, state = after.rpartition("_")
    return name if state in ("in", "on", "open") else after


def _names_another(message: Message, match: Match) -> bool:
    """Whether the clause names a part that the short words then speak of ("the bottom vent is clear now")."""
    start, end = message.clause(match.start)
    return any(token.named for token in message.tokens[start:end])
