"""What past cooks taught, brought into a talk that is kept: at its start, and anew when a cook is over."""

from typing import TYPE_CHECKING

from advisor.logbook.records import Cook
from advisor.ownchart.known import known_cookers
from advisor.session import Session

if TYPE_CHECKING:
    from advisor.logbook.opening import Logbook

AT_ONCE = 2  # cooks the model may learn from while somebody waits, two seconds each; `drafthand chart` catches up


def know(session: Session) -> Session:
    """The session, its conversation knowing each cooker as the logbook does. Raises LogbookError."""
    if session.logbook is not None:
        _tell(session, session.logbook)
    return session


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
