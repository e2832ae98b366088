"""Figures in words, in the reader's units and in times of the day. Knows the kinds of figures, not what they teach."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from advisor.report.known_figures import FIGURES, Figures
from advisor.report.story import CookStory
from advisor.wording import PLACEHOLDER, Wording, minutes, opening


class Row(NamedTuple):
    """A figure in words; note: how it came about, where that matters."""

    name: str
    value: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Speech:
    """How to say the figures of one cook to one person."""

    story: CookStory
    figures: Figures
    wording: Wording

    def say(self, name: str) -> str:
        """One figure in words. Raises KeyError for one that is not known."""
        value = self.figures[name]
        if isinstance(value, bool):
            return "yes" if value else "no"
        return {"moment": self.clock, "minutes": _length, "temperature": self.wording.temperature, "opening": opening,
                "difference": self.wording.difference, "count": _count,
                "share": lambda v: f"{100 * v:.0f}%", "mass": self.wording.mass}[FIGURES[name][0]](value)

    def fill(self, text: str) -> str:
        """A text of rules/lessons.yaml with its braces filled."""
        return self.wording.fill(text, {name: self.say(name) for name in self.figures})

    def clock(self, at_min: float) -> str:
        """The time of day at a minute of the cook."""
        return f"{self.story.clock(at_min):%H:%M}"

    def title(self) -> str:
        """What this cook is called."""
        story = self.story
        number = f"Cook {story.number}" if story.number is not None else "A cook"
        return readable(", ".join(filter(None, (number, story.food, story.cooker, day(story.started)))))

    def span(self) -> str:
        """From when to when, and whether that was all."""
        so_far = "" if self.story.finished else ", so far"
        return f"{self.clock(0)} to {self.clock(self.story.length_min)}{so_far}"

    def rows(self, phrases: dict[str, str]) -> Iterator[Row]:
        """The figures for a reader, those not known left out - but for the charcoal, where it is said why."""
        for label, template in ROWS:
            if all(name in self.figures for name in _names(template)) and self._worth_saying(_names(template)[0]):
                yield Row(self.fill(label), self.fill(template))
        yield Row("charcoal used", *self._fuel(phrases))

    def summary(self, phrases: dict[str, str]) -> str:
        """One sentence on how the target was reached and held."""
        known = self.figures
        name = ("summary_no_target" if "target_f" not in known else "summary_not_reached" if "reached_at" not in known
                else "summary" if "in_band_share" in known else "summary_too_little")
        return self.fill(phrases[name])

    def _worth_saying(self, name: str) -> bool:
        """A count of nothing is worth a line only where it tells how the cook was done."""
        return bool(self.figures[name]) or name not in SILENT_AT_ZERO

    def _fuel(self, phrases: dict[str, str]) -> tuple[str, str]:
        """(amount, how it is known)."""
        known = self.figures
        if "fuel_estimated" not in known:
            return "not known", phrases["fuel_unknown"]
        if known["fuel_estimated"]:
            between = f"{self.say('fuel_low_kg')} to {self.say('fuel_high_kg')}"
            return f"about {self.say('fuel_kg')} ({between})", phrases["fuel_estimated"]
        amount = f", {self.say('fuel_kg')}" if "fuel_kg" in known else ""
        return f"{self.say('fuel_share')} of a full basket{amount}", phrases["fuel_told"]


def _length(number: float) -> str:
    return minutes(number) if number >= 0.5 or number == 0 else "less than a minute"


def _count(number: float) -> str:
    return "none told" if number == 0 else f"{number:.0f}" if number >= 10 or number == int(number) else f"{number:.1f}"


def readable(words: str) -> str:
    """Words without characters that are not seen but turn or hide those that are."""
    return words.translate(UNSEEN)


def day(moment: datetime) -> str:
    """A date as it stands in a heading."""
    return f"{moment.day} {MONTHS[moment.month - 1]} {moment.year}"


def _names(template: str) -> list[str]:
    return [name for name, _ in PLACEHOLDER.findall(template)]


UNSEEN = {code: None for code in (*range(32), *range(127, 160), *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0xFEFF)
          if code not in (9, 10)}
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")
SILENT_AT_ZERO = ("moves", "burps", "advised", "steps_done")
ROWS = (
    ("length", "{length_min}"),
    ("target", "{target_f}"),
    ("to the target", "{reached_in}"),
    ("held within {15 degrees}", "{in_band_share} of the time since"),
    ("longest held", "{longest_in_band_min}, from {longest_in_band_at}"),
    ("highest above the target", "{over_f}, at {over_at}"),
    ("lowest below it afterwards", "{under_f}, at {under_at}"),
    ("visits to the vents", "{visits}"),
    ("vent moves", "{moves}"),
    ("liftings of the lid", "{lids}"),
    ("burps", "{burps}"),
    ("lid up in all", "{lid_up_min}"),
    ("pieces of advice", "{advised}"),
    ("steps taken as done", "{steps_done}"),
    ("food on", "{food_on_at}"),
    ("core", "from {core_first_f} to {core_highest_f}, highest at {core_highest_at}"),
    ("stall", "{stall_min} near {stall_f}, from {stall_at}"),
    ("food off", "{food_off_at}"),
    ("rested", "{rested_min}"),
    ("readings", "{readings}"),
    ("longest without a reading", "{longest_gap_min}"),
)
