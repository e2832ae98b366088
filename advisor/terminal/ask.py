"""`drafthand ask`: one message, one answer. Everything it imports is paid for by somebody with a fire running away."""

import argparse

from advisor.clock import WallClock
from advisor.terminal import door, ready
from advisor.terminal.layout import columns, laid_out, openings


def run(call: argparse.Namespace) -> int:
    clock = WallClock()
    conversation = ready.conversation(call.cooker, forecasts=False)  # loading numpy alone takes half as long again
    reply = conversation.say(ready.whole(" ".join(call.words)), clock.minutes(), clock.minute_of_day())
    if call.json:
        door.send(reply.as_json())
    else:
        door.say(laid_out(reply.text, columns(), openings(conversation.rulebook.catalogue.phrases)))
    return 0
