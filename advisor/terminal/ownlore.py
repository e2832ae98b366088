"""What past cooks taught, brought into a talk that is kept: at its start, and anew when a cook is over."""

from typing import TYPE_CHECKING

from advisor.errors import LogbookUnwritable
from advisor.logbook.records import Cook
from advisor.ownchart.known import known_cookers, stale
from advisor.session import Session

if TYPE_CHECKING:
    from advisor.logbook.opening import Logbook

AT_ONCE = 2  # cooks the model may learn from while somebody waits, two seconds each; `drafthand chart` catches up


def know(session: Session) -> Session:
    """The session, its conversation knowing each cooker as the logbook does. Raises LogbookError when that can't be read."""
    if session.logbook is not None:
        _renew(session, session.logbook)
        _tell(session, session.logbook)
    return session


def _renew(session: Session, logbook: "Logbook") -> None:
    """Charts that miss a cook, anew; where that can't be kept now, the old ones serve."""
    with logbook.reading() as book:
        names = stale(book)
    if not names:
        return
    from advisor.ownchart.upkeep import bring_up_to_date

    try:
        for name in names:
            bring_up_to_date(logbook, name, session.conversation.rulebook.catalogue.vent_chart, most=0)
    except LogbookUnwritable:
        return


def learn_from(session: Session, cook: Cook) -> str:
    """Bring chart and model of the cook's cooker up to date; a sentence about it, or nothing where it showed nothing."""
    from advisor.ownchart.saying import rests_on
    from advisor.ownchart.upkeep import bring_up_to_date

    if session.logbook is None:
        return ""
    conversation, catalogue = session.conversation, session.conversation.rulebook.catalogue
    kept = bring_up_to_date(session.logbook, cook.cooker, catalogue.vent_chart, conversation.profile, most=AT_ONCE)
    _tell(session, session.logbook)
    return f"{catalogue.phrases['chart_renewed']} {rests_on(kept.chart, catalogue.phrases)}" if kept.chart.cooks else ""


def _tell(session: Session, logbook: "Logbook") -> None:
    with logbook.reading() as book:
        session.conversation.know(known_cookers(book, session.conversation.profile))
