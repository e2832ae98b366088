"""Conversations as the data of the families write them down."""

from collections.abc import Iterable

from advisor.conversation import Conversation
from advisor.reply import Reply
from advisor.rulebook.loader import Rulebook


def hold(rulebook: Rulebook, turns: Iterable[str], each_min: float = 0.0) -> list[Reply]:
    """The replies to a conversation; "+12 words" lets twelve minutes pass first, any other turn each_min."""
    conversation, now, replies = Conversation(rulebook), 0.0, []
    for turn in turns:
        minutes, words = turn[1:].split(" ", 1) if turn.startswith("+") else (each_min, turn)
        now += float(minutes)
        replies.append(conversation.say(words, now))
    return replies
