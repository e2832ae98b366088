"""Another program at the other end of `drafthand pipe`: in this process where that is quick enough."""

import json

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.session import Session
from advisor.terminal.pipe import Pipe


class Program:
    """Sends lines, holds every answer against what holds for all replies, and keeps the last one."""

    def __init__(self, conversation: Conversation) -> None:
        self.clock = SetClock()
        self.pipe = Pipe(Session(conversation, None, self.clock))
        self.last: dict = {}

    def send(self, raw: bytes | None = None, **line) -> dict:
        answer = json.loads(self.pipe.answer(json.dumps(line).encode() if raw is None else raw))
        if "error" not in answer:
            holds_for_every_reply(answer)
            self.last = answer
        return answer

    def say(self, words: str, at_min: float | None = None) -> dict:
        return self.send(say=words) if at_min is None else self.send(say=words, at_min=at_min)

    def talk(self, *turns: str, every_min: float = 1, start: float = 0) -> dict:
        """Messages a fixed time apart; the last reply."""
        for n, words in enumerate(turns):
            self.say(words, start + n * every_min)
        return self.last


def holds_for_every_reply(reply: dict) -> None:
    """The sentences of the contract that hold whatever was said."""
    assert reply["text"].strip()
    assert reply["text"].count("?") <= 1, reply["text"]
    inner = reply["what_if"] or {}
    assert not (reply["asks"] and inner.get("asks"))
    certainties = [finding["certainty"] for finding in reply["findings"]]
    assert certainties == sorted(certainties, reverse=True)
    assert all(0 <= certainty <= 1 for certainty in certainties)
    fired = [firing["rule"] for firing in reply["why"]]
    assert all(set(finding["because"]) <= set(fired) and finding["because"] for finding in reply["findings"])
    assert [firing["n"] for firing in reply["why"]] == list(range(1, len(fired) + 1))
    origins = {used["origin"] for firing in reply["why"] for used in firing["used"]}
    assert origins <= {"said", "measured", "derived", "assumed", "learned", "forecast"}
    assert [step["n"] for step in reply["steps"]] == list(range(1, len(reply["steps"]) + 1))
    levels = [caution["level"] for caution in reply["cautions"]]
    assert levels == sorted(levels, key=["danger", "warning", "note"].index)
    assert all(caution["source"] and caution["says"] in reply["text"] for caution in reply["cautions"]
               if caution["level"] == "danger"), reply["text"]
    assert reply["understood"] or reply["asks"], reply["text"]
    assert (reply["check_in_min"] is None) == (not reply["steps"])
    for step in reply["steps"]:
        assert step["act"] and step["says"]
        assert step["wait_min"] is None or step["wait_min"] > 0


def dangers(reply: dict) -> set[str]:
    return {caution["id"] for caution in reply["cautions"] if caution["level"] == "danger"}


def acts(reply: dict) -> list[str]:
    return [step["act"] for step in reply["steps"]]


def known(reply: dict) -> dict:
    """The situation without the name of the cooker."""
    return {name: value for name, value in reply["situation"].items() if name != "cooker"}
