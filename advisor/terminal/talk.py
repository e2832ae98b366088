"""A kept conversation and its timers held together: what the chat and its commands work on. It prints and reads nothing."""

from collections.abc import Iterable, Iterator

from advisor.conversation import Conversation
from advisor.course import in_short
from advisor.reply import Reply
from advisor.rulebook.loader import read_rulebook
from advisor.session import Session
from advisor.settings import Settings
from advisor.standing import Standing
from advisor.terminal.layout import Openings, openings
from advisor.terminal.timers import Timers, reminder_line

WHERE = "what now"  # of the rule base's words that ask where things stand, the plainest
HELP_HINT = "/help shows what else I understand."
LEAVE_HINT = {True: "Nothing typed. Ctrl-D or /quit leaves; what you told me is kept.",
              False: "Nothing typed. Ctrl-D or /quit leaves; what you told me is lost then."}


class Talk:
    """The ways into a session. `over`: the person wants to leave."""

    def __init__(self, session: Session, settings: Settings | None = None) -> None:
        self.session, self.settings = session, settings or Settings()
        self._timers = Timers(self.settings.remind_again_min)
        self.over = False

    @property
    def conversation(self) -> Conversation:
        return self.session.conversation

    # -- ways in --------------------------------------------------------------------------------------------------

    def say(self, words: str) -> Reply:
        return self.session.say(words)

    def done(self, numbers: Iterable[int]) -> Reply:
        return self.session.done(numbers)

    def switch(self, cooker: str) -> Reply:
        return self.session.switch(cooker)

    def status(self) -> Reply:
        return self.session.status()

    def reset(self) -> Reply:
        return self.session.reset()

    def reload(self) -> int:
        """Read the rule base again and say how many rules it has. Raises RuleFileError, InferenceError."""
        rulebook = read_rulebook(self.conversation.rulebook.folder)
        self.conversation.use(rulebook)
        return len(rulebook.rules)

    # -- where it stands ------------------------------------------------------------------------------------------

    def standings(self) -> tuple[Standing, ...]:
        return self.conversation.standings(self.session.now())

    def reminders(self) -> Iterator[str]:
        """A line for every wait that is over; each counts as said once the next is asked for."""
        standings, now = self.standings(), self.session.now()
        for reminder in self._timers.due(standings, now):
            yield reminder_line(reminder, len(standings) > 1, self.conversation.rulebook.catalogue)
            self._timers.said(reminder, now)

    @property
    def in_short(self) -> str:
        """What hands have to do at the cooker in hand, in a few words; nothing where no step stands."""
        catalogue, here = self.conversation.rulebook.catalogue, self.conversation.current.name
        stands = next((standing for standing in self.standings() if standing.cooker == here), None)
        if stands is None:
            return ""
        steps = stands.in_hand or ((stands.then,) if stands.then else ())
        return catalogue.phrases["bar_hands_off"] if stands.hands_off else in_short(steps, catalogue) if steps else ""

    @property
    def waits(self) -> bool:
        """Whether any timer runs."""
        return any(standing.left_min is not None and not standing.due for standing in self.standings())

    @property
    def is_kept(self) -> bool:
        return self.session.logbook is not None

    @property
    def rings(self) -> bool:
        return self.settings.bell

    # -- words of the screen --------------------------------------------------------------------------------------

    def welcome(self) -> str:
        """The first lines: what is to be known of the keeping, then what this is or where the cook stands that goes on."""
        news = self.session.news()
        if self.session.resumed and self.conversation.current.steps:
            going_on = self.conversation.rulebook.catalogue.phrases["going_on"]
            return "\n".join([*news, f"{going_on} {HELP_HINT}", self.where()])
        return "\n".join([*news, f"{self.greeting} {HELP_HINT}"])

    def where(self) -> str:
        """Where the cook in hand stands: three lines where something is under way."""
        return self.say(WHERE).text

    @property
    def leave_hint(self) -> str:
        return LEAVE_HINT[self.is_kept]

    @property
    def prompt(self) -> str:
        return f"{self.conversation.current.name or 'fire'}> "

    @property
    def greeting(self) -> str:
        return self.conversation.rulebook.catalogue.phrases["greeting"]

    @property
    def openings(self) -> Openings:
        """How the lines of a reply are told apart."""
        return openings(self.conversation.rulebook.catalogue.phrases)

    def names_to_ask_about(self) -> list[str]:
        """Causes and steps as a person would write them."""
        catalogue = self.conversation.rulebook.catalogue
        return [name.replace("-", " ") for name in catalogue.findings] + [act.title for act in catalogue.acts.values()]

    def cooker_names(self) -> tuple[str, ...]:
        return self.conversation.cookers
