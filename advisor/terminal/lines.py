"""The lines `drafthand pipe` reads, as pydantic models, and the way from a raw line to one of them."""

import json
import math
from typing import Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator

from advisor.errors import LineRefused
from advisor.reply import Reply
from advisor.session import Session
from advisor.suggestions import did_you_mean

LONGEST_LINE = 1_000_000   # bytes; a thermometer logger sends a few hundred
LONGEST_NAME = 80
LATEST_MIN = 1e9           # some 1,900 years: later than any clock, early enough to reckon with
AT = Field(default=None, ge=0, le=LATEST_MIN, allow_inf_nan=False,
           description="the caller's clock in minutes, never going back; left out, the real clock serves")


class _Line(BaseModel):
    """What all lines have in common. `put` has the session answer it."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)
    at_min: float | None = AT


class SayLine(_Line):
    """Words."""

    say: str

    def put(self, session: Session) -> Reply:
        return session.say(self.say, self.at_min)


class ReadingLine(_Line):
    """Figures under the keys of a situation."""

    reading: dict[str, Any] = Field(min_length=1)  # each value is checked by the vocabulary

    def put(self, session: Session) -> Reply:
        return session.reading(self.reading, self.at_min)


class DoneLine(_Line):
    """Numbers of steps of the last reply that have been carried out."""

    done: list[int] = Field(min_length=1)

    def put(self, session: Session) -> Reply:
        return session.done(self.done, self.at_min)


class CookerLine(_Line):
    """The cooker that is meant from now on, made if it is new."""

    cooker: str = Field(min_length=1, max_length=LONGEST_NAME, pattern=r"\S")

    def put(self, session: Session) -> Reply:
        return session.switch(self.cooker, self.at_min)


class ResetLine(_Line):
    """Start over, clock included."""

    reset: bool = Field(json_schema_extra={"const": True})

    @field_validator("reset")
    @classmethod
    def _true(cls, reset: bool) -> bool:
        if not reset:
            raise ValueError("reset can only be true")
        return reset

    def put(self, session: Session) -> Reply:
        return session.reset(self.at_min)


Line = SayLine | ReadingLine | DoneLine | CookerLine | ResetLine
LINES: dict[str, type[Line]] = {"say": SayLine, "reading": ReadingLine, "done": DoneLine, "cooker": CookerLine,
                                "reset": ResetLine}


BELONGS = {"say": "the words themselves", "reading": "an object of situation keys and figures",
           "done": "a list of step numbers, such as [1, 2]", "cooker": f"a name of 1 to {LONGEST_NAME} characters",
           "reset": "true", "at_min": f"a number of minutes from 0 to {LATEST_MIN:g}"}


def read_line(raw: bytes) -> Line:
    """One line as sent. Raises LineRefused."""
    data = _object(_text(raw))
    kinds = [key for key in LINES if key in data]
    if len(kinds) > 1:
        raise LineRefused(f"the line holds both {kinds[0]} and {kinds[1]}", "which comes first would be a guess",
                          "send them as two lines")
    if not kinds:
        raise LineRefused(f"the line holds none of {', '.join(LINES)}", "nothing says what to do",
                          did_you_mean(next(iter(data), ""), LINES))
    try:
        return LINES[kinds[0]].model_validate(data)
    except ValidationError as error:
        raise _refusal(error, kinds[0]) from None


def _text(raw: bytes) -> str:
    if len(raw) > LONGEST_LINE:
        raise LineRefused(f"the line is longer than {LONGEST_LINE:,} bytes", "no message is", "send it in parts")
    try:
        text = raw.decode("utf-8").strip("\ufeff \t\r\n")
    except UnicodeDecodeError as error:
        raise LineRefused(f"byte {error.start + 1} is no UTF-8", "the line can't be read as text",
                          "send JSON in UTF-8, one object a line") from None
    if not text:
        raise LineRefused("the line is empty", "there is nothing to answer", 'send an object such as {"say": "dome 310"}')
    return text


def _object(text: str) -> dict[str, Any]:
    try:
        data = json.loads(text, parse_constant=_no_number, parse_float=_finite)
        text.encode("utf-8")
        json.dumps(data, ensure_ascii=False).encode("utf-8")
    except UnicodeEncodeError:
        raise LineRefused("the line holds half a character (a lone \\ud8xx)", "no text can carry it",
                          "send both halves") from None
    except json.JSONDecodeError as error:
        raise LineRefused(f"this is no JSON ({error.msg.lower()} at column {error.colno})",
                          "nothing in it can be used", "send one JSON object a line") from None
    except (RecursionError, ValueError):
        raise LineRefused("the JSON is nested too deep or holds a number of thousands of digits",
                          "nothing we know is like that", "send plain figures and words") from None
    if not isinstance(data, dict):
        raise LineRefused(f"the line is {_kind(data)}, not an object", "nothing says what to do",
                          'send an object such as {"say": "dome 310"}')
    return data


def _no_number(name: str) -> float:
    raise LineRefused(f"{name} stands where a number should", "JSON has no such number and no thermometer shows it",
                      "leave the key out when there is no reading")


def _finite(digits: str) -> float:
    number = float(digits)
    if not math.isfinite(number):
        raise LineRefused(f"the number {digits[:20]} is beyond reckoning", "no thermometer shows it",
                          "leave the key out when there is no reading")
    return number


def _kind(data: Any) -> str:
    kinds = {list: "a list", str: "a text", bool: "true or false", type(None): "null"}
    return kinds.get(type(data), "a number")


def _refusal(error: ValidationError, kind: str) -> LineRefused:
    """The first complaint of pydantic as one of ours."""
    first = error.errors(include_url=False)[0]
    key = str(first["loc"][0])
    if first["type"] == "extra_forbidden":
        return LineRefused(f"there is no key {key[:40]!r} beside {kind}", "", did_you_mean(key, (kind, "at_min")))
    shown = json.dumps(first.get("input"), ensure_ascii=False, default=str)[:60]
    return LineRefused(f"{key} was given as {shown}", f"there belongs {BELONGS[key]}", "drafthand schema shows it all")
