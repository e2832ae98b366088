"""Times given to what happened: "20 min ago", "since 3", "that's been two hours" go to the nearest event named."""

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.patterns import Match
from advisor.language.phrase_figures import is_about_meat, is_of_another, is_of_the_lid, minutes_of

HEARD_IN = {"said", "was", "maybe"}
TIMES = {"ago", "minutes", "clock"}
FAR = 1000  # an event in another clause is nearer than none


def event_facts(message: Message, heard: dict[str, Value]) -> dict[str, Value]:
    """The times since events, for figures that no phrase has taken and facts that are not heard yet."""
    events = [match for match in message.lexicon.events.find(message.tokens) if _is_meant(message, match)]
    facts: dict[str, Value] = {}
    for at in _times(message, events):
        event = _nearest(message, events, at)
        if event and event.means not in heard and event.means not in facts:
            minutes = minutes_of(message, at, ahead=False)
            if minutes is not None and minutes not in [
                heard.get(fact) for fact in message.lexicon.event_facts
            ]:
                facts[event.means] = minutes
    facts |= _just_now(message, events, heard | facts)
    return facts | _just_done(message, heard | facts)


def _is_meant(message: Message, match: Match) -> bool:
    if match.means == "fire_died_ago_min" and is_of_another(
        message, message.clause(match.start)[0], match.start
    ):
        return False
    if match.means == "vents_moved_ago_min" and is_about_meat(message, match.start):
        return False
    if match.means == "vents_moved_ago_min" and is_of_the_lid(message, match):
        return False
    behind = {token.lemma for token in message.tokens[match.end : match.end + 1]}
    if behind & set(message.lexicon.data["no_event_before"].get(match.means, ())):
        return False
    return {message.moods[at] for at in range(match.start, match.end)} <= HEARD_IN


def _times(message: Message, events: list[Match]) -> list[int]:
    """Figures that tell how long ago: "... ago", a clock time after "since" or "at", "that has been 2 hours"."""
    return [
        at
        for at, token in enumerate(message.tokens)
        if token.quantity
        and message.moods[at] in HEARD_IN
        and (token.quantity.kind == "ago" or _is_since(message, at))
    ]


def _is_since(message: Message, at: int) -> bool:
    kind = message.tokens[at].quantity.kind
    before = [token.text for token in message.tokens[max(0, at - 4) : at]]
    if kind == "clock":
        return bool({"since", "at", "around", "about"} & set(before[-2:])) or before[-2:] == ["that", "was"]
    if kind != "minutes":
        return False
    after = [token.text for token in message.tokens[at + 1 : at + 3]]
    return (
        after[:1] in (["since"], ["now"])
        or before[-1:] == ["since"]
        or ("that" in before and "been" in before)
    )


def _nearest(message: Message, events: list[Match], at: int) -> Match | None:
    """The event of the same clause that is nearest; else the last one before."""
    start, end = message.clause(at)

    def distance(event: Match) -> int:
        if start <= event.start < end:
            return min(abs(at - event.end), abs(event.start - at))
        return FAR + at - event.start if event.start < at else 2 * FAR

    near = [event for event in events if distance(event) < 2 * FAR]
    return min(near, key=lambda event: (distance(event), -len(event)), default=None)


def _just_done(message: Message, heard: dict[str, Value]) -> dict[str, Value]:
    """ "Added two chunks of oak", without a word of when: a moment ago."""
    if any(token.quantity and token.quantity.kind in TIMES for token in message.tokens):
        return {}
    return {
        match.means: 0.0
        for match in message.lexicon.just_done.find(message.tokens)
        if match.means not in heard and {message.moods[at] for at in range(match.start, match.end)} == {"said"}
    }


def _just_now(message: Message, events: list[Match], heard: dict[str, Value]) -> dict[str, Value]:
    """ "Just shut the bottom": the event was a moment ago."""
    found = {}
    for event in events:
        before = [token.text for token in message.tokens[max(0, event.start - 2) : event.end]]
        if (
            ("just" in before or _now_follows(message, event.end))
            and event.means in message.lexicon.data["just_now"]
            and event.means not in heard
        ):
            found[event.means] = 0.0
    return found


def _now_follows(message: Message, at: int) -> bool:
    """Whether "just now" comes next, with nothing but "again", "a bit" in between."""
    fillers = message.lexicon.data["before_just_now"]
    while at < len(message.tokens) and message.tokens[at].text in fillers:
        at += 1
    return any(match.start == at and match.means == "just_now" and match.end - match.start > 1
               for match in message.lexicon.answers.find(message.tokens))
