"""What a reply comes to in the notation, kind by kind. A pin that still holds is given back as it was written."""

from collections.abc import Callable, Sequence
from fnmatch import fnmatchcase
from math import floor

from advisor.reply import Reply, StepSaid
from advisor.transcripts.format import KINDS, Pin, pairs, written

ADVICE = ("recover/", "teach/")  # rules worth pinning when nobody has chosen any
NOTHING = "nothing"
ALWAYS = ("heard", "thinks", "rule", "step", "danger", "asks", "look")  # pinned on a turn that pins nothing yet


def settled(reply: Reply, pins: Sequence[Pin]) -> tuple[Pin, ...]:
    """The pins of a turn as they would have to stand for this reply: the same kinds, all of them when there are none."""
    kinds = [kind for kind in KINDS if any(pin.kind == kind for pin in pins)] or ALWAYS
    return tuple(pin for kind in kinds
                 for pin in _SETTLE[kind](reply, [pin for pin in pins if pin.kind == kind]))


def settled_refusal(sentence: str, pins: Sequence[Pin]) -> tuple[Pin, ...]:
    """The same for a turn that was refused with `sentence`."""
    kept = [pin for pin in pins if pin.kind == "refused" and fnmatchcase(sentence, pin.text)]
    return tuple(kept) or (Pin("refused", sentence),)


def said(reply: Reply, glob: str) -> bool:
    """Whether the reply's text reads like `glob`, blanks and line ends counting alike."""
    return fnmatchcase(" ".join(reply.text.split()).lower(), " ".join(glob.split()).lower())


def _heard(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    return _one("heard", written(reply.heard.items()), pins, lambda pin: pairs(pin.text) == reply.heard)


def _also(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    others = [f"{other.cooker}: {written(other.heard.items())}" for other in reply.also_heard]
    return [_as_written(Pin("also", text), pins) for text in others or [NOTHING]]


def _thinks(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    """Findings pinned, each with the least certainty that will do; the surest one where none is pinned."""
    sure = {finding.id: finding.certainty for finding in reply.findings}
    wanted = [(pin, *_floor(pin)) for pin in pins] or [(None, name, 0.0) for name in list(sure)[:1]]
    kept = [pin if pin and low <= sure[name] else Pin("thinks", f"{name}, at least {floor(sure[name] * 20) / 20:g}")
            for pin, name, low in wanted if name in sure]
    return kept or [Pin("thinks", NOTHING)]


def _floor(pin: Pin) -> tuple[str, float]:
    """A finding and the certainty asked of it, from `far-over, at least 0.9`; 2 where that can't be read."""
    name, _, low = pin.text.partition(", at least ")
    try:
        return name, float(low or 0)
    except ValueError:
        return name, 2.0


def _rule(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    """Rules pinned that fired; where one did not, or none is pinned, those that advise."""
    fired = [firing.rule for firing in reply.why]
    kept = [pin for pin in pins if pin.text in fired]
    if kept and len(kept) == len(pins):
        return kept
    known = {pin.text for pin in kept}
    new = [Pin("rule", rule) for rule in fired if rule.startswith(ADVICE) and rule not in known]
    return kept + new or [Pin("rule", NOTHING)]


def _step(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    if not reply.steps:
        return [_as_written(Pin("step", NOTHING), pins)]
    by_number = {pin.text.partition(" ")[0]: pin for pin in pins}
    return [pin if (pin := by_number.get(str(step.n))) and _step_holds(step, pin) else
            Pin("step", f"{step.n} {_step_written(step)}") for step in reply.steps]


def _step_holds(step: StepSaid, pin: Pin) -> bool:
    """The act must be the same, and every key the page names; keys it leaves out are free."""
    act, _, named = pin.text.partition(" ")[2].partition(": ")
    values = pairs(named) if named else {}
    came = pairs(_step_written(step).partition(": ")[2] or "") or {}
    return act == step.act and values is not None and values.items() <= came.items()


def _step_written(step: StepSaid) -> str:
    values = dict(step.parameters) | ({"wait_min": step.wait_min} if step.wait_min else {})
    for fact, bound in (step.when or {}).items():
        values |= {f"once_{fact}_{test}": limit for test, limit in bound.items()}
    return f"{step.act}: {written(values.items())}" if values else step.act


def _caution(level: str) -> "Settle":
    def settle(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
        ids = [caution.id for caution in reply.cautions if caution.level == level]
        return _one(level, ", ".join(ids), pins, lambda pin: sorted(pin.text.split(", ")) == sorted(ids))

    return settle


def _asks(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    return _one("asks", reply.asks.fact if reply.asks else "", pins)


def _look(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    return _one("look", f"in {reply.check_in_min:g} minutes" if reply.check_in_min else "", pins)


def _words(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    return [pin if said(reply, pin.text) else Pin("words", f"(none like {pin.text} in: {_begin(reply.text)})")
            for pin in pins]


def _begin(text: str) -> str:
    return " ".join(text.split())[:200]


def _refused(reply: Reply, pins: Sequence[Pin]) -> list[Pin]:
    return [Pin("refused", f"{NOTHING}, it was answered")]


def _one(kind: str, text: str, pins: Sequence[Pin], holds: Callable[[Pin], bool] | None = None) -> list[Pin]:
    """A kind that takes one line."""
    new = Pin(kind, text or NOTHING)
    if len(pins) == 1 and (pins[0].text == new.text or (text and holds and holds(pins[0]))):
        return list(pins)
    return [new]


def _as_written(new: Pin, pins: Sequence[Pin]) -> Pin:
    return next((pin for pin in pins if pin.text == new.text), new)


Settle = Callable[[Reply, Sequence[Pin]], list[Pin]]
_SETTLE: dict[str, Settle] = {
    "heard": _heard, "also": _also, "thinks": _thinks, "rule": _rule, "step": _step, "danger": _caution("danger"),
    "warning": _caution("warning"), "note": _caution("note"), "asks": _asks, "look": _look, "words": _words,
    "refused": _refused,
}
