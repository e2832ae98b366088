"""What a nursery loads before it forks: all that the commands import late, and the rules. It opens no logbook."""

from functools import cache

import numpy  # noqa: F401
import psycopg  # noqa: F401

import advisor.importing.gathering
import advisor.logbook.opening
import advisor.outlook.views
import advisor.terminal.commandline
import advisor.terminal.importing
import advisor.terminal.pipe
import advisor.terminal.ready
from advisor.terminal.keptrules import kept_rulebook

advisor.terminal.ready.kept_rulebook = cache(kept_rulebook)
advisor.terminal.ready.kept_rulebook()
