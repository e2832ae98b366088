"""How the kinds of lines look on a terminal: in colour, in bright sun, without either. No meaning hangs on colour alone."""

import os
from typing import Literal

from prompt_toolkit.styles import Style
from prompt_toolkit.utils import is_dumb_terminal

MENU = {"completion-menu": "noreverse", "completion-menu.completion": "noreverse bg:default fg:default",
        "completion-menu.completion.current": "reverse bg:default fg:default",
        "completion-menu.meta.completion": "noreverse bg:default fg:default",
        "completion-menu.meta.completion.current": "reverse bg:default fg:default"}
BAR = {"bottom-toolbar": "noreverse", "bar": "bold"}

COLOURS = Style.from_dict({"danger": "bold ansired", "care": "ansiyellow", "question": "bold ansicyan", "step": "bold",
                           "prompt": "ansigreen", "timer": "bold underline", **MENU, **BAR})
SUN = Style.from_dict({"danger": "bold reverse", "care": "bold underline", "question": "bold underline", "step": "bold",
                       "prompt": "bold", "timer": "bold reverse", **MENU, "bottom-toolbar": "reverse", "bar": "bold"})
PLAIN = Style.from_dict({})


def style_for(contrast: Literal["normal", "high"]) -> Style:
    if contrast == "high":
        return SUN  # letters made heavy are no colour: they stay where NO_COLOR is set
    return COLOURS if colour_wanted() else PLAIN


def colour_wanted() -> bool:
    return not os.environ.get("NO_COLOR") and not is_dumb_terminal()
