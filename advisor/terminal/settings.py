"""`drafthand settings`: where the settings lie, what each of them is and does, and a commented file to begin with."""

import argparse

from advisor.settings import explained, read_settings, write_commented
from advisor.terminal import door
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.ready import settings_file


def run(call: argparse.Namespace) -> int:
    path = settings_file()
    if call.write:
        write_commented(path)
        door.say(f"{path} is written. Every key is explained in it and none is set.")
        return 0
    settings = read_settings(path)
    door.say(f"{path}" if path.exists() else f"{path}\n(no such file yet; drafthand settings --write makes one)")
    for key, value, says in explained(settings):
        door.say(laid_out(f"\n{key}: {value}\n    {says}", columns(), {}))
    return 0
