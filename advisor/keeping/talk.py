"""The talk in the logbook as one process knows it: where it is kept, how far, and which turns could not be entered yet."""

from typing import TYPE_CHECKING

from advisor.clock import Clock, TalkClock
from advisor.conversation import Conversation
from advisor.errors import LogbookError
from advisor.keeping.place import KeptTurn, Place, clock_in, place_of
from advisor.keeping.turns import enter
from advisor.logbook import records

if TYPE_CHECKING:  # sqlalchemy is loaded by whoever opens a logbook, and by nobody else
    from advisor.logbook.opening import Logbook
    from advisor.logbook.reader import Reader
    from advisor.logbook.talkwriter import TalkWriter

LEFT_AFTER_H = 18.0  # judgement: a long smoke with its rest and a night's sleep; a basket of charcoal burns no longer
QUICK_S, REST_S = 1.0, 30.0  # judgement: who asks in need should not wait longer, and nobody minds half a minute unkept
LEFT = "left"        # the outcome of a cook that was never said to be over


class KeptTalk:
    """It holds the conversation to the state that the logbook has. clock: of the talk; place: where it is kept;
    news: lines about the keeping that nobody has read yet; resumed: whether it goes on with an earlier process's;
    told_elsewhere: whether the newest turn is another process's.
    """

    def __init__(self, conversation: Conversation, real: Clock) -> None:
        self._conversation, self._real = conversation, real
        self.clock, self.place = TalkClock(kept_at=real.minutes()), Place()
        self._pending: tuple[KeptTurn, ...] = ()
        self._closed: tuple[LogbookError, float] | None = None  # what the last slow try came to, and when to try again
        self.news: list[str] = []
        self.resumed = self.told_elsewhere = False

    # -- going on with what is kept -----------------------------------------------------------------------------------

    def begin(self, logbook: "Logbook") -> None:
        """Go on with the talk that is open, unless it was left long ago."""
        with logbook.reading() as book:
            talk = book.open_talk()
        if talk is None:
            return
        silent_min = self._real.minutes() - clock_in(talk).kept_at
        if silent_min <= LEFT_AFTER_H * 60:
            self._go_on(talk)
            self.resumed = True
            return
        with logbook.writing() as book:
            book.close_talk(talk.id, place_of(talk).ms(clock_in(talk).now_min), LEFT)
        if place_of(talk).cooks:
            self.news.append(self.phrase("talk_left").replace("{hours}", f"{silent_min / 60:.0f}"))

    def has_fallen_behind(self, book: "Reader") -> bool:
        """Whether another process has gone on with the talk, or closed it."""
        return book.open_version() != self.place.version_kept

    def catch_up(self, book: "Reader") -> bool:
        """What another process has made of the talk is ours; whether there was anything."""
        if not self.has_fallen_behind(book):
            return False
        if self._pending:
            self._pending = ()
            self.news.append(self.phrase("kept_by_another"))
        talk, self.told_elsewhere = book.open_talk(), True
        if talk is not None:
            self._go_on(talk, self._conversation.current.name if talk.id == self.place.talk_id else None)
        else:
            self._conversation.reset()
            self.place, self.clock = Place(), TalkClock(kept_at=self._real.minutes())
        return True

    def _go_on(self, talk: records.Talk, in_hand: str | None = None) -> None:
        self._conversation.resume(talk.state.get("conversation", {}), in_hand)
        self.clock, self.place = clock_in(talk), place_of(talk)

    # -- entering turns -------------------------------------------------------------------------------------------------

    @property
    def waits(self) -> bool:
        """Whether turns wait to be entered."""
        return bool(self._pending)

    def enter(self, book: "TalkWriter", turn: KeptTurn) -> Place:
        """Enter the turn after those that could not be entered before; counts once it is `entered`."""
        place = self.place
        for waiting in (*self._pending, turn):
            place = enter(book, place, waiting, self._conversation.profile_of)
        return place

    def entered(self, place: Place) -> None:
        """The transaction is committed."""
        if self._pending:
            self.news.append(self.phrase("kept_again"))
        self.place, self._pending, self.told_elsewhere = place, (), False

    def put_off(self, turn: KeptTurn, error: LogbookError, began_s: float, failed_s: float) -> None:
        """The turn could not be entered; it is with the next one. began_s, failed_s: when it was tried, on any clock."""
        if not self._pending:
            self.news.append(self.phrase("not_kept", str(error)))
        self._pending = (*self._pending, turn)
        self.failed(error, began_s, failed_s)

    def failed(self, error: LogbookError, began_s: float, failed_s: float) -> None:
        """The logbook could not be reached: after a try that took long it is left alone for a while."""
        if failed_s - began_s > QUICK_S:
            self._closed = error, failed_s + REST_S

    def not_yet(self, now_s: float) -> LogbookError | None:
        """Why it is not worth a try now: the last one let the person wait for an answer, and is not long ago."""
        return self._closed[0] if self._closed and now_s < self._closed[1] else None

    def phrase(self, name: str, why: str = "") -> str:
        return self._conversation.rulebook.catalogue.phrases[name].replace("{why}", why.rstrip("."))
