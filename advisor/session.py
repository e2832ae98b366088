"""A conversation that is kept: every turn is one committed transaction, and the next process goes on where this one ended.

    session = Session(conversation, open_logbook(folder), EpochClock())
    reply = session.say("dome 310, want 250")     # on disk before it is given
"""

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any

from advisor.clock import Clock, TalkClock, seconds
from advisor.conversation import Conversation
from advisor.errors import LogbookError
from advisor.keeping.place import FINISH, NOTE, RESET, KeptTurn
from advisor.keeping.talk import KeptTalk
from advisor.logbook import records
from advisor.reply import Reply

if TYPE_CHECKING:  # sqlalchemy is loaded by whoever opens a logbook, and by nobody else
    from advisor.logbook.opening import Logbook
    from advisor.logbook.reader import Reader

Run = Callable[[float], Reply | None]


class Session:
    """The ways into a conversation with time and logbook filled in; two processes on one logbook talk in one conversation.

    clock: minutes since 1970 (EpochClock), so that a later process can go on with them. at_min, wherever it is taken, is
    the caller's own clock in minutes, never going back, across processes too; left out, the real clock goes on from the
    last turn. Minute 0 of the talk lies at `epoch_ms` in the logbook: the real moment of its first turn less that turn's
    minute. Which cooker is in hand is each process's own.
    logbook None: nothing is kept, `why_not` says why once. What can't be kept for now (disk full, server gone) is said in
    the reply and entered, whole, as soon as it can be. Ways in raise what the Conversation's raise, and ClockRefused;
    nothing has changed then.
    """

    def __init__(self, conversation: Conversation, logbook: "Logbook | None", clock: Clock,
                 why_not: LogbookError | None = None) -> None:
        self.conversation, self.logbook, self._clock = conversation, logbook, clock
        self._kept = KeptTalk(conversation, clock)
        if why_not:
            self._kept.news.append(self._kept.phrase("kept_nothing", str(why_not)))
        if logbook is not None:
            self._kept.begin(logbook)

    # -- ways in ------------------------------------------------------------------------------------------------------

    def say(self, words: str, at_min: float | None = None) -> Reply:
        """A message in the person's own words."""
        minute_of_day = self._clock.minute_of_day() if at_min is None else None
        return self._turn("say", {"say": words}, lambda now: self.conversation.say(words, now, minute_of_day), at_min)

    def reading(self, facts: Mapping[str, Any], at_min: float | None = None) -> Reply:
        """Figures under situation keys, as measured."""
        return self._turn("reading", {"reading": dict(facts)}, lambda now: self.conversation.reading(facts, now), at_min)

    def done(self, numbers: Iterable[int], at_min: float | None = None) -> Reply:
        """Steps of the last reply that were carried out."""
        numbers = list(numbers)
        return self._turn("done", {"done": numbers}, lambda now: self.conversation.done(numbers, now), at_min)

    def switch(self, cooker: str, at_min: float | None = None) -> Reply:
        """Turn to another cooker, new if it is not known."""
        return self._turn("cooker", {"cooker": cooker}, lambda now: self.conversation.switch(cooker, now), at_min)

    def status(self, at_min: float | None = None) -> Reply:
        """Where the cooker in hand stands."""
        return self._turn("status", {}, self.conversation.status, at_min)

    def reset(self, at_min: float | None = None) -> Reply:
        """Close the talk and its cooks, and begin another, clock included."""
        return self._turn(RESET, {}, lambda now: self.conversation.reset(), at_min)

    def note(self, words: str) -> None:
        """The person's own words about the cook in hand. Raises LogbookError when they can't be kept."""
        self._must_keep(NOTE, {"words": words}, lambda now: None)

    def finish(self, outcome: str | None = None) -> "records.Cook | None":
        """The cook in hand is over: the record of it, or None where nothing was told of one.

        Raises LogbookError when that can't be kept; the cook goes on then.
        """
        logbook, cook_id = self._must_keep(FINISH, {"outcome": outcome}, lambda now: self.conversation.finish())
        return None if cook_id is None else logbook.cook(cook_id)

    # -- what stands around it ------------------------------------------------------------------------------------------

    def now(self) -> float:
        """The minute of the talk as it is now."""
        return self._kept.clock.at(None, self._clock.minutes())

    @property
    def resumed(self) -> bool:
        """Whether it goes on with a talk that an earlier process has kept."""
        return self._kept.resumed

    @property
    def cook_id(self) -> int | None:
        """The number of the cook in hand in the logbook; None while nothing is kept of it."""
        return self._kept.place.cooks.get(self.conversation.current.name)

    def look_in(self) -> bool:
        """Go on with what another process has entered since; whether there was anything.

        It takes no lock, writes nothing and never raises: meant for the ticks of a clock. While a turn of this process
        waits to be entered, and while the logbook can't be read, nothing is taken over; the next turn settles it.
        """
        return self._looks(self._kept.catch_up)

    @property
    def is_behind(self) -> bool:
        """Whether `look_in` would find anything. Changes nothing, so another thread may ask."""
        return self._looks(self._kept.has_fallen_behind)

    def _looks(self, question: "Callable[[Reader], bool]") -> bool:
        began_s = seconds()
        if self.logbook is None or self._kept.waits or self._kept.not_yet(began_s):
            return False
        try:
            with self.logbook.reading() as book:
                return question(book)
        except LogbookError as error:
            self._kept.failed(error, began_s, seconds())
            return False

    def told_elsewhere(self) -> bool:
        """Whether the newest turn is another process's; asked once, it is taken for known."""
        told, self._kept.told_elsewhere = self._kept.told_elsewhere, False
        return told

    def news(self) -> list[str]:
        """Lines about the keeping that a person should read, each once; those not fetched stand before the next reply."""
        news, self._kept.news = self._kept.news, []
        return news

    # -- one turn -------------------------------------------------------------------------------------------------------

    def _turn(self, kind: str, content: Mapping[str, Any], run: Run, at_min: float | None) -> Reply:
        turn = None
        before, began_s = self.conversation.stand, seconds()
        try:
            if self.logbook is None:
                turn = self._take(kind, content, run, at_min)
            elif error := self._kept.not_yet(began_s):
                raise error
            else:
                with self.logbook.writing() as book:
                    self._kept.catch_up(book)
                    before = self.conversation.stand
                    turn = self._take(kind, content, run, at_min)
                    place = self._kept.enter(book, turn)
                self._kept.entered(place)
        except LogbookError as error:
            turn = turn or self._take(kind, content, run, at_min)
            self._kept.put_off(turn, error, began_s, seconds())
        except BaseException:
            self.conversation.stand = before
            raise
        self._kept.clock = turn.clock
        assert turn.reply is not None
        news = self.news()
        return turn.reply.model_copy(update={"text": "\n".join([*news, turn.reply.text])}) if news else turn.reply

    def _must_keep(self, kind: str, content: Mapping[str, Any], run: Run) -> "tuple[Logbook, int | None]":
        """A turn without a reply, which counts only once it is kept: the logbook, and the number of the cook in hand."""
        if self.logbook is None:
            raise LogbookError("nothing of this talk is kept", "", "start drafthand with --data and a folder it may write to")
        before = self.conversation.stand
        try:
            with self.logbook.writing() as book:
                self._kept.catch_up(book)
                before, cook_id = self.conversation.stand, self.cook_id
                turn = self._take(kind, content, run, None)
                place = self._kept.enter(book, turn)
        except BaseException:
            self.conversation.stand = before
            raise
        self._kept.entered(place)
        self._kept.clock = turn.clock
        return self.logbook, cook_id

    def _take(self, kind: str, content: Mapping[str, Any], run: Run, at_min: float | None) -> KeptTurn:
        """Have the conversation answer. Nothing is kept of it yet, the clock included."""
        real, before = self._clock.minutes(), self.conversation.stand
        clock = TalkClock(kept_at=real) if kind == RESET else self._kept.clock
        now = clock.at(at_min, real)
        reply = run(now)
        sent = content if at_min is None else {**content, "at_min": at_min}
        state = self.conversation.state() if self.logbook else {}
        return KeptTurn(kind, sent, reply, before, self.conversation.stand, state, clock.kept(now, at_min, real),
                        self._kept.clock.at(None, real) if kind == RESET else now)
