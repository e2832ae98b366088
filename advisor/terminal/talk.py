"""A conversation and a clock held together: what the chat and its commands work on. It prints and reads nothing."""

from collections.abc import Iterable

from advisor.clock import Clock
from advisor.conversation import Conversation
from advisor.reply import Reply
from advisor.rulebook.loader import read_rulebook
from advisor.terminal.layout import Openings, openings


class Talk:
    """The ways into a conversation with the time filled in. `over`: the person wants to leave."""

    def __init__(self, conversation: Conversation, clock: Clock) -> None:
        self.conversation, self._clock = conversation, clock
        self.over = False

    def say(self, words: str) -> Reply:
        return self.conversation.say(words, self._clock.minutes(), self._clock.minute_of_day())

    def done(self, numbers: Iterable[int]) -> Reply:
        return self.conversation.done(numbers, self._clock.minutes())

    def switch(self, cooker: str) -> Reply:
        return self.conversation.switch(cooker, self._clock.minutes())

    def status(self) -> Reply:
        return self.conversation.status(self._clock.minutes())

    def reset(self) -> Reply:
        return self.conversation.reset()

    def reload(self) -> int:
        """Read the rule base again and say how many rules it has. Raises RuleFileError, InferenceError."""
        rulebook = read_rulebook(self.conversation.rulebook.folder)
        self.conversation.use(rulebook)
        return len(rulebook.rules)

    def names_to_ask_about(self) -> list[str]:
        """Causes and steps as a person would write them."""
        catalogue = self.conversation.rulebook.catalogue
        return [name.replace("-", " ") for name in catalogue.findings] + [act.title for act in catalogue.acts.values()]

    def cooker_names(self) -> tuple[str, ...]:
        return self.conversation.cookers

    @property
    def greeting(self) -> str:
        return self.conversation.rulebook.catalogue.phrases["greeting"]

    @property
    def openings(self) -> Openings:
        """How the lines of a reply are told apart."""
        return openings(self.conversation.rulebook.catalogue.phrases)
