"""Which logbook a command works on: the one named in the call, else the one of the settings, else the usual folder."""

import os

import platformdirs

from advisor.logbook.opening import Logbook, open_logbook
from advisor.settings import Settings, read_settings


def open_book(named: str | None) -> Logbook:
    """Raises LogbookError."""
    usual = platformdirs.user_data_path("drafthand", appauthor=False)
    return open_logbook(named or os.environ.get("DRAFTHAND_DATA") or settings().logbook or usual)


def settings() -> Settings:
    return read_settings(platformdirs.user_config_path("drafthand", appauthor=False) / "settings.yaml")
