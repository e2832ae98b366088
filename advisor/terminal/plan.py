"""`drafthand plan`: says that it can't be done yet."""

import argparse

from advisor.errors import CommandRefused


def run(call: argparse.Namespace) -> int:
    raise CommandRefused("planning a cook is not built yet", "",
                         'for a cook that is going, call drafthand ask "what the cooker is doing"')
