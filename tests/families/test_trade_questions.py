"""Questions of the trade in plain words are answered, with or without a reading, and reasons are given to "why"."""

from pathlib import Path

import pytest
import yaml

from advisor.conversation import Conversation
from advisor.reply import Reply

TALK = yaml.safe_load((Path(__file__).parent.parent / "data" / "trade_questions.yaml").read_text(encoding="utf-8"))
ASKED = [(rule, turns) for rule, talks in TALK.items() for turns in talks]


def hold(rulebook, turns) -> list[Reply]:
    """The replies to a conversation; "+12 words" lets twelve minutes pass first, any other turn one."""
    conversation, now, replies = Conversation(rulebook), 0.0, []
    for turn in turns:
        minutes, words = turn[1:].split(" ", 1) if turn.startswith("+") else (1.0, turn)
        now += float(minutes)
        replies.append(conversation.say(words, now))
    return replies


@pytest.mark.parametrize(("rule", "turns"), ASKED, ids=[turns[-1] for _, turns in ASKED])
def test_the_question_is_answered(rulebook, rule, turns):
    reply = hold(rulebook, turns)[-1]
    assert [answer.because for answer in reply.answers] == [rule]
    assert reply.answers[0].says.split(".")[0] in reply.text
