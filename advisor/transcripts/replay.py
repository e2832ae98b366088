"""A page played again: the same words at the same minutes, and what its pins would have to be now."""

import difflib
from collections.abc import Iterator
from dataclasses import dataclass

from advisor.conversation import Conversation
from advisor.errors import DrafthandError, TranscriptError
from advisor.reply import Reply
from advisor.rulebook.loader import Rulebook
from advisor.transcripts.format import Page, Pin, Turn, pairs
from advisor.transcripts.pins import settled, settled_refusal

CONTEXT = 3  # lines shown around a difference


@dataclass(frozen=True, slots=True)
class Played:
    """A page and, turn by turn, the pins that hold now. It is as written when they are the ones on the page."""

    page: Page
    pins: tuple[tuple[Pin, ...], ...]

    @property
    def as_written(self) -> bool:
        return all(turn.pins == now for turn, now in zip(self.page.turns, self.pins, strict=True))

    def lines(self) -> list[str]:
        """The page with the pins that hold now; everything else as it was."""
        lines = list(self.page.lines)
        for turn, now in reversed(list(zip(self.page.turns, self.pins, strict=True))):
            if turn.pins != now:
                lines[turn.line:turn.line + len(turn.pins)] = map(str, now)
        return lines

    def difference(self) -> str:
        """What has changed, in the notation of the page: - as it is written, + as it comes out."""
        changes = difflib.unified_diff(self.page.lines, self.lines(), self.page.path, "as it comes out now",
                                       n=CONTEXT, lineterm="")
        return "\n".join(changes)


def play(page: Page, rulebook: Rulebook) -> Played:
    """Raises TranscriptError, with file and line, for a turn whose words can't be used."""
    conversation = Conversation(rulebook)
    return Played(page, tuple(_pins(turn, conversation, page) for turn in page.turns))


def replies(page: Page, rulebook: Rulebook) -> Iterator[tuple[Turn, Reply]]:
    """The replies themselves, for whoever wants to look closer. Raises what the conversation raises."""
    conversation = Conversation(rulebook)
    for turn in page.turns:
        yield turn, _reply(turn, conversation, page)


def _pins(turn: Turn, conversation: Conversation, page: Page) -> tuple[Pin, ...]:
    try:
        return settled(_reply(turn, conversation, page), turn.pins)
    except TranscriptError:
        raise
    except DrafthandError as error:
        return settled_refusal(str(error), turn.pins)


def _reply(turn: Turn, conversation: Conversation, page: Page) -> Reply:
    if turn.verb == "cook":
        return conversation.say(turn.words, turn.minute, turn.day_minute)
    if not turn.words:
        raise _off(turn, page, f"{turn.verb} says nothing", "write what it is about")
    if turn.verb == "turn":
        return conversation.switch(turn.words, turn.minute)
    if turn.verb == "did":
        return conversation.done(_numbers(turn, page), turn.minute)
    facts = pairs(turn.words)
    if facts is None:
        raise _off(turn, page, f"{turn.words!r} are no figures", "write for instance dome_f 310, flames false")
    return conversation.reading(facts, turn.minute)


def _numbers(turn: Turn, page: Page) -> list[int]:
    words = turn.words.replace(",", " ").split()
    if not all(word.isdecimal() for word in words):
        raise _off(turn, page, f"{turn.words!r} are no step numbers", "write for instance 1, 2")
    return [int(word) for word in words]


def _off(turn: Turn, page: Page, seen: str, remedy: str) -> TranscriptError:
    return TranscriptError(f"{page.path}:{turn.line}: {seen}", "", remedy)
