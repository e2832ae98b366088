"""Invented cooks: one small enough to check by hand, one of fourteen hours from the thermal model, and odd ones."""

from datetime import UTC, datetime, timedelta, timezone

from advisor.report.story import Advised, CookStory, Deed, FuelTold, LidUp, Note, VentMove

MORNING = datetime(2026, 11, 14, 6, 10, tzinfo=timezone(timedelta(hours=1)))

BY_HAND = CookStory(
    started=MORNING, length_min=240, number=3, cooker="the big one", target_f=250.0,
    dome=((0, 70), (40, 230), (50, 250), (60, 290), (100, 250), (130, 250), (140, 220), (160, 250), (200, 250), (240, 150)),
    moves=(VentMove(0, "bottom", 1.0, 1.0), VentMove(0, "top", 1.0, 1.0), VentMove(52, "top", 0.2, 1.0),
           VentMove(55, "top", 0.05, 0.2), VentMove(56, "bottom", 0.25, 1.0), VentMove(145, "top", 0.12, 0.05),
           VentMove(200, "top", 0.0, 0.12), VentMove(200.5, "bottom", 0.0, 0.25)),
    lids=(LidUp(62, burp=True, lasted_min=0.5), LidUp(130, lasted_min=2.0)),
    deeds=(Deed(62, "burp_lid", "Burp it."),),
    advice=(Advised(51, ("Set the top vent a fifth open.", "Hands off for 10 minutes.")),),
    notes=(Note(70, "smells clean"),),
    fuel=FuelTold(level_first=0.8, level_last=0.5, put_in_kg=4.0),
    food="pork shoulder", meat=((60, 40), (120, 150), (150, 153), (190, 155), (230, 190)),
    food_on_min=60.0, food_off_min=230.0, rested_until_min=240.0)

BARE = CookStory(started=datetime(2026, 3, 1, 12, tzinfo=UTC), length_min=95.0, dome=((0, 180), (30, 240), (95, 235)))
EMPTY = CookStory(started=datetime(2026, 3, 1, 12, tzinfo=UTC), length_min=0.0)
