"""What every way in starts with: a person's settings, and a conversation over the rule base for the cooker named."""

import os
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import platformdirs

from advisor.conversation import Conversation
from advisor.profile import CookerProfile, read_profile
from advisor.terminal.keptrules import kept_rulebook
from advisor.terminal.startup import without_collecting
from advisor.units import SpokenUnits

if TYPE_CHECKING:
    from advisor.settings import Settings


def conversation(cooker: str | None, forecasts: bool = True, scale: str | None = None) -> Conversation:
    """cooker: path of a profile, or None. Raises ProfileError, RuleFileError. forecasts: whether the physics is asked.

    scale: F or C, to answer in where the settings leave that open; None: as the person speaks.
    """
    with without_collecting():
        profile = read_profile(Path(cooker)) if cooker else CookerProfile()
        if not settings_file().exists():  # then the code that reads them need not be loaded either
            return Conversation(kept_rulebook(), profile, forecasts, SpokenUnits(temperature=scale))
        return _as_set(profile, forecasts, scale)


def _as_set(profile: CookerProfile, forecasts: bool, scale: str | None) -> Conversation:
    chosen = settings()
    if profile.altitude_ft is None and chosen.altitude_ft is not None:
        profile = profile.model_copy(update={"altitude_ft": chosen.altitude_ft})
    return Conversation(kept_rulebook(), profile, forecasts, replace(chosen.units, temperature=chosen.units.temperature or scale))


def settings() -> "Settings":
    """Raises ProfileError."""
    from advisor.settings import read_settings

    return read_settings(settings_file())


def settings_file() -> Path:
    """Where the settings are looked for: DRAFTHAND_SETTINGS, or the user's folder for such files."""
    named = os.environ.get("DRAFTHAND_SETTINGS")
    return Path(named) if named else platformdirs.user_config_path("drafthand", appauthor=False) / "settings.yaml"


def whole(words: str) -> str:
    """`words` with what is no character (half of one, bytes of another encoding) replaced: JSON can't carry it."""
    return words.encode("utf-8", "replace").decode("utf-8")
