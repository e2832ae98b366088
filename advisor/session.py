"""A conversation that is kept: every turn is one committed transaction, and the next process goes on where this one ended.

    session = Session(conversation, open_logbook(folder), EpochClock())
    reply = session.say("dome 310, want 250")     # on disk before it is given
"""

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any

from advisor.clock import Clock, TalkClock
from advisor.conversation import Conversation
from advisor.errors import LogbookError
from advisor.keeping.place import FINISH, NOTE, RESET, KeptTurn, Place, clock_in, place_of
from advisor.keeping.turns import enter
from advisor.logbook import records
from advisor.reply import Reply

if TYPE_CHECKING:  # sqlalchemy is loaded by whoever opens a logbook, and by nobody else
    from advisor.logbook.opening import Logbook
    from advisor.logbook.reader import Reader
    from advisor.logbook.talkwriter import TalkWriter

LEFT_AFTER_H = 18.0  # judgement: a long smoke with its rest and a night's sleep; a basket of charcoal burns no longer
Run = Callable[[float], Reply | None]
LEFT = "left"        # the outcome of a cook that was never said to be over


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
        self._talk_clock, self._place = TalkClock(kept_at=clock.minutes()), Place()
        self._pending: tuple[KeptTurn, ...] = ()  # turns that could not be entered yet
        self._news: list[str] = [self._phrase("kept_nothing", str(why_not))] if why_not else []
        self.resumed = False
        if logbook is not None:
            self._begin(logbook)

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
        return self._talk_clock.at(None, self._clock.minutes())

    @property
    def cook_id(self) -> int | None:
        """The number of the cook in hand in the logbook; None while nothing is kept of it."""
        return self._place.cooks.get(self.conversation.current.name)

    def look_in(self) -> bool:
        """Go on with what another process has entered since; whether there was anything.

        It takes no lock, writes nothing and never raises: meant for the ticks of a clock. While a turn of this process
        waits to be entered, and while the logbook can't be read, nothing is taken over; the next turn settles it.
        """
        if self.logbook is None or self._pending:
            return False
        try:
            with self.logbook.reading() as book:
                return self._catch_up(book)
        except LogbookError:
            return False

    @property
    def is_behind(self) -> bool:
        """Whether `look_in` would find anything. Changes nothing, so another thread may ask."""
        if self.logbook is None or self._pending:
            return False
        try:
            with self.logbook.reading() as book:
                return book.open_version() != self._place.version_kept
        except LogbookError:
            return False

    def news(self) -> list[str]:
        """Lines about the keeping that a person should read, each once; those not fetched stand before the next reply."""
        news, self._news = self._news, []
        return news

    # -- one turn -------------------------------------------------------------------------------------------------------

    def _turn(self, kind: str, content: Mapping[str, Any], run: Run, at_min: float | None) -> Reply:
        turn = None
        before = self.conversation.stand
        try:
            if self.logbook is None:
                turn = self._take(kind, content, run, at_min)
            else:
                with self.logbook.writing() as book:
                    self._catch_up(book)
                    before = self.conversation.stand
                    turn = self._take(kind, content, run, at_min)
                    place = self._enter(book, turn)
                self._entered(place)
        except LogbookError as error:
            turn = turn or self._take(kind, content, run, at_min)
            self._put_off(turn, error)
        except BaseException:
            self.conversation.stand = before
            raise
        self._talk_clock = turn.clock
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
                self._catch_up(book)
                before, cook_id = self.conversation.stand, self.cook_id
                turn = self._take(kind, content, run, None)
                place = self._enter(book, turn)
        except BaseException:
            self.conversation.stand = before
            raise
        self._entered(place)
        self._talk_clock = turn.clock
        return self.logbook, cook_id

    def _take(self, kind: str, content: Mapping[str, Any], run: Run, at_min: float | None) -> KeptTurn:
        """Have the conversation answer. Nothing is kept of it yet, the clock included."""
        real, before = self._clock.minutes(), self.conversation.stand
        clock = TalkClock(kept_at=real) if kind == RESET else self._talk_clock
        now = clock.at(at_min, real)
        reply = run(now)
        sent = content if at_min is None else {**content, "at_min": at_min}
        state = self.conversation.state() if self.logbook else {}
        return KeptTurn(kind, sent, reply, before, self.conversation.stand, state, clock.kept(now, at_min, real),
                        self._talk_clock.at(None, real) if kind == RESET else now)

    # -- the logbook ----------------------------------------------------------------------------------------------------

    def _begin(self, logbook: "Logbook") -> None:
        """Go on with the talk that is open, unless it was left long ago."""
        with logbook.reading() as book:
            talk = book.open_talk()
        if talk is None:
            return
        silent_min = self._clock.minutes() - clock_in(talk).kept_at
        if silent_min <= LEFT_AFTER_H * 60:
            self._go_on(talk)
            self.resumed = True
            return
        with logbook.writing() as book:
            book.close_talk(talk.id, place_of(talk).ms(clock_in(talk).now_min), LEFT)
        if place_of(talk).cooks:
            self._news.append(self._phrase("talk_left").replace("{hours}", f"{silent_min / 60:.0f}"))

    def _go_on(self, talk: records.Talk, in_hand: str | None = None) -> None:
        self.conversation.resume(talk.state.get("conversation", {}), in_hand)
        self._talk_clock = clock_in(talk)
        self._place = place_of(talk)

    def _catch_up(self, book: "Reader") -> bool:
        """Another process may have gone on with the talk, or closed it: then its state is ours. Whether it has."""
        if book.open_version() == self._place.version_kept:
            return False
        if self._pending:
            self._pending = ()
            self._news.append(self._phrase("kept_by_another"))
        talk = book.open_talk()
        if talk is not None:
            self._go_on(talk, self.conversation.current.name if talk.id == self._place.talk_id else None)
        else:
            self.conversation.reset()
            self._place, self._talk_clock = Place(), TalkClock(kept_at=self._clock.minutes())
        return True

    def _enter(self, book: "TalkWriter", turn: KeptTurn) -> Place:
        """Enter the turn after those that could not be entered before; counts once the transaction is committed."""
        place = self._place
        for waiting in (*self._pending, turn):
            place = enter(book, place, waiting, self.conversation.profile_of)
        return place

    def _entered(self, place: Place) -> None:
        if self._pending:
            self._news.append(self._phrase("kept_again"))
        self._place, self._pending = place, ()

    def _put_off(self, turn: KeptTurn, error: LogbookError) -> None:
        if not self._pending:
            self._news.append(self._phrase("not_kept", str(error)))
        self._pending = (*self._pending, turn)

    def _phrase(self, name: str, why: str = "") -> str:
        return self.conversation.rulebook.catalogue.phrases[name].replace("{why}", why.rstrip("."))
