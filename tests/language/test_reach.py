"""How far words reach: what is supposed, bygone, denied, ended, or said of something else."""

import pytest


@pytest.mark.parametrize(
    "words",
    [
        "in theory, with the dome at 450 and the bottom shut, what would happen",
        "pretend it is 600 and the lid is open, what do the kids do",
        "for the exercise the dome is 500 and black smoke comes out",
        "let's say the fat burns, what first",
        "lets say your fire dies with a chicken on, then what",
        "as an example, 350 on the dome and both vents shut",
        "did a turkey on it saturday at 325, lovely",
        "the first time I cooked on it the fire went out",
        "can you get dizzy from the fumes",
        "what would you do at 350 if you wanted 250",
        "for argument's sake the probe reads 90",
        "people always say never open the lid",
        "the website told me 4 hours at 275",
        "on my old kettle it ran at 300",
        "does anybody ever get headaches from charcoal",
    ],
)
def test_nothing_is_stated(listen, words):
    assert set(listen(words).facts) <= {"food", "meat_kind", "bird"}


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        ("was blowing a gale earlier, dead calm now", {"windy": False}),
        ("the wind has gone, its calm", {"windy": False}),
        ("shut the btm 20 mins ago", {"bottom_vent": 0, "vents_moved_ago_min": 20}),
        ("tp vnt half open", {"top_vent": 0.5}),
        ("teh doem says 340 adn i wnat 250", {"dome_f": 340, "target_f": 250}),
        ("put a match to it 40 min ago, 180 on the dial", {"lit_ago_min": 40, "dome_f": 180}),
        ("four vent moves in the last hour", {"vents_moved_every_min": 15}),
        ("moved the bottom again just now", {"vents_moved_ago_min": 0}),
        ("shut the top a bit just now", {"vents_moved_ago_min": 0}),
        ("not laid a finger on the vents for an hour", {"vents_moved_ago_min": 60}),
        ("she stopped smoking half an hour ago", {"smoke": "none"}),
        ("it has a bitter smell", {"smell": "acrid"}),
        ("i can only just see the smoke", {"smoke_amount": "light"}),
        ("the lump is all burnt up, just dust left", {"fuel_level": 0}),
        ("had the lid open for ages, shut it now, 190", {"lid_open": False, "dome_f": 190}),
        ("left the lid up by mistake. shut it and its 460 now", {"lid_open": False, "dome_f": 460}),
        ("lit it this very minute", {"lit_ago_min": 0}),
        ("sausages are straight over the coals", {"food_on": True}),
        ("flames licking up round the burgers", {"food_on": True, "flames": True}),
        ("left the fridge at 1pm, now its 4", {"out_of_fridge_min": 180}),
        ("the middle of the pork sat between 60 and 110 for 4 hours", {"danger_zone_for_min": 240}),
        ("shutting the lid killed the flames", {"flames": False}),
        ("the apron caught fire but its out now", {"clothes_burn": False}),
        ("bottom vent wont close, its stuck half an inch open", {"bottom_vent_in": 0.5}),
        ("the deflector broke so im cooking without it", {"deflector_in": False}),
        ("im not using a deflector, should i be", {"deflector_in": False}),
        ("thought the deflector was out, but it is in there", {"deflector_in": True}),
        ("I said 275 earlier, thats the target, the dome is 310", {"target_f": 275, "dome_f": 310}),
        ("240 is what im aiming for, 275 is what i got", {"target_f": 240, "dome_f": 275}),
        ("390 on the lid, im doing 225 today", {"target_f": 225, "dome_f": 390}),
        ("lunch moved from 12 to 1:30, it's 11:45", {"serve_in_min": 105}),
        ("eating moved to 6:30, it's 3:45", {"serve_in_min": 165}),
        ("pork on at 9, its now 1pm and the inside of it is 150", {"meat_f": 150, "food_on_for_min": 240}),
        ("fat hit the coals and it flared. lid down, all quiet now", {"flames": False}),
        ("firemen came, everything is out and cold", {"fire_out": True}),
        ("chicken is in the brine", {"food_on": False}),
        ("pork joint 5 lb went on at noon, it's two", {"food_on": True, "food_on_for_min": 120}),
        ("210 ten minutes ago, 250 now", {"trend": "rising"}),
        ("300 a quarter of an hour ago, 260 now", {"trend": "falling"}),
        ("had to open the lid to flip, about 5 min ago", {"lid_opened_ago_min": 5}),
        ("the lid's been down the whole time", {"lid_open": False}),
        ("it doesn't smell bad anymore", {"smell": "clean"}),
        ("the flat is at 188", {"meat_f": 188}),
        ("needs to come up 30", {"over_f": -30}),
        ("has to come down by 40", {"over_f": 40}),
        ("right where I want it", {"said_off": "right"}),
        ("a touch over", {"said_off": "bit_hot"}),
        ("a bit low still", {"said_off": "bit_cold"}),
        ("freezing cold in there", {"said_off": "cold"}),
        ("brisket's been going since midnight", {"food_on": True, "food_on_for_min": 900}),
        ("fire's jumped to the fence", {"fire_spreads": True}),
        ("the flames have leapt onto the shed", {"fire_spreads": True}),
        ("put the fire out with water", {"water_thrown": True}),
        ("the charcoal has been sitting in the rain", {"charcoal_state": "damp"}),
        ("forgot to put the stone in", {"deflector_in": False}),
        ("sorry typo 325 not 235", {"dome_f": 325}),
        ("I left the pork in the car for 3 hours", {"out_of_fridge_min": 180}),
        ("thawed the chicken on the counter overnight", {"out_of_fridge_min": 480}),
        ("we open at 5:30", {"serve_in_min": 150}),
        ("ready or not we eat at 5", {"serve_in_min": 120}),
        ("poked the pork at 158", {"meat_f": 158}),
        ("a spark landed on the cushion and it's smouldering", {"fire_spreads": True}),
        ("lit with a gas torch, one spot", {"stage": "lighting", "lit_spots": "one"}),
        ("i closed the top to like a quarter", {"top_vent": 0.25}),
        ("shut the bottom down to about a third", {"bottom_vent": 0.33}),
        ("added a chimney of unlit", {"fuel_added_ago_min": 0}),
        ("fire in the grill is massive, help", {"flames": True}),
        ("its the fat in the tray, burning", {"grease_fire": True}),
        ("i keep adjusting it", {"keeps_fiddling": True}),
        ("goes 230 to 290", {"trend": "swinging"}),
        ("it ripped the gasket", {"gasket_leaks": True}),
        ("cable is out now, smell gone", {"smell": "clean", "plastic_in": False}),
        ("310F, want 225F, b 2in t shut", {"dome_f": 310, "target_f": 225, "bottom_vent_in": 2, "top_vent": 0}),
        ("t 1/8 b 1in 240 steady", {"top_vent": 0.12, "bottom_vent_in": 1, "dome_f": 240}),
        ("220->260 in 10 min", {"dome_f": 260, "trend": "rising"}),
        ("300 to 260 in 10 min", {"dome_f": 260, "trend": "falling"}),
        ("about 2 fifty", {"dome_f": 250}),
        ("needle's off the scale", {"said_off": "hot"}),
        ("recovering, 240 now", {"trend": "rising", "dome_f": 240}),
        ("barely alive", {"fire_out": False}),
        ("just embers left", {"fire_out": False}),
        ("kid left the lid up for ten minutes", {"lid_was_open": True}),
        ("looks dead but there's still a bit of red", {"fire_out": False}),
        ("it says 250 but I don't believe it", {"gauge_suspect": True}),
        ("gauge reads 40 over what the probe says", {"gauge_suspect": True}),
        ("nothing changed", {"trend": "steady"}),
        ("ok its back where i want it", {"said_off": "right"}),
        ("bit too smoky for me", {"smoke_amount": "heavy"}),
        ("heat shimmer only", {"smoke": "none"}),
        ("we have 40 minutes left and breast is 150", {"serve_in_min": 40, "meat_f": 150}),
        ("the meat is 140, needs 200 by 6", {"serve_in_min": 180}),
        ("the wind's making it jump 30 degrees each way", {"trend": "swinging"}),
        ("both the vents are open about the width of a pencil", {"bottom_vent": 0.08, "top_vent": 0.08}),
        ("petals halfway", {"top_vent": 0.5}),
        ("slider half", {"bottom_vent": 0.5}),
        ("cap off", {"top_vent": 1}),
        ("gave it more air", {"vents_moved_ago_min": 0}),
        ("propped the lid", {"lid_open": True}),
        ("cracked the lid an inch", {"lid_open": True}),
        ("took half the ribs off", {"food_on": True}),
        ("added 2 handfuls of briquettes", {"fuel_added_ago_min": 0}),
        ("topped it off with lump", {"fuel_added_ago_min": 0}),
        ("stirred it up", {"stirred_ago_min": 0}),
        ("lit one more spot", {"lit_spots": "several"}),
        ("dome 1 9 0", {"dome_f": 190}),
        ("bring her down from 350 to 275", {"dome_f": 350, "target_f": 275}),
        ("near the target for half an hour", {"at_target_for_min": 30}),
        ("smoke's got a nasty bite to it", {"smell": "acrid"}),
        ("a third full of charcoal", {"fuel_level": 0.33}),
        ("ash is choking it I think", {"ash": "heavy"}),
        ("wrapped at 165, now 190", {"meat_f": 190}),
        ("internal creeping up a degree every ten minutes", {"meat_trend": "rising"}),
        ("meat 150 amb 60 wind nil", {"meat_f": 150, "ambient_f": 60, "windy": False}),
        ("250 is what i wanted but not what i got", {"target_f": 250}),
        ("at least 300", {"dome_f": 300}),
        ("lower than i'd like", {"said_off": "cold"}),
        ("hotter than i'd like", {"said_off": "hot"}),
        ("230 to 245 now", {"dome_f": 245, "trend": "rising"}),
        ("it hasn't done anything", {"trend": "steady"}),
        ("bottom vent fell off", {"bottom_vent": 1}),
        ("off and resting in a cool box", {"food_on": False, "resting": True}),
        ("pulled pork 3.5 kilo in", {"food_on": True, "food_kg": 3.5}),
        ("threw a jug of water over it before asking you", {"water_thrown": True}),
        ("the timber table underneath is going brown and hot", {"scorching": True}),
        ("ashes cleared", {"ash": "light"}),
        ("nowt left but ash", {"fuel_level": 0}),
        ("bottom a finger open", {"bottom_vent_in": 0.75}),
    ],
)
def test_it_reaches(listen, words, facts):
    heard = listen(words, minute_of_day=900).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("words", "unheard"),
    [
        ("put a match to it 40 min ago, 180 on the dial", {"flames"}),
        ("she stopped smoking half an hour ago", {"fire_out", "fire_died_ago_min"}),
        ("is 150 enough for chicken", {"meat_f"}),
        ("the apron caught fire but its out now", {"fire_out"}),
        ("my bottom slide travels 4 inches in all", {"bottom_vent_in"}),
        ("bought 10 kg of charcoal at the shop", {"charcoal_kg"}),
        ("target is 300 now instead of 225", {"dome_f"}),
        ("the lid isn't open, I shut it ten minutes ago", {"vents_moved_ago_min"}),
        ("snow on the ground, 20F outside", {"raining"}),
        ("top a finger wide", {"nothing"}),
        ("the wind has gone, its calm", {"trend"}),
        ("nobody has touched the vents since breakfast", {"co_symptoms"}),
        ("had to open the lid to flip, about 5 min ago", {"lid_open"}),
        ("we're out of charcoal", {"people_out"}),
        ("emptied the ash before lighting", {"stage"}),
        ("the flat is at 188", {"dome_f"}),
        ("brisket's been going since midnight", {"lit_ago_min"}),
        ("fire's jumped to the fence", {"trend"}),
        ("the charcoal has been sitting in the rain", {"raining"}),
        ("top vent spins freely, won't stay put", {"trend"}),
        ("forgot to shut the bottom", {"bottom_vent"}),
        ("felt is glued on", {"trend"}),
        ("92 in the middle, soft like butter", {"lit_spots"}),
        ("bottom vent fell off", {"trend"}),
        ("not sure if its 250 or 350 the glass is foggy", {"trend"}),
        ("chicken thighs read 175 in the middle", {"lit_spots"}),
        ("turkey breast hit 150 an hour ago", {"rate_f_per_min", "trend"}),
        ("wrapped at 165, now 190", {"dome_f"}),
        ("internal creeping up a degree every ten minutes", {"rate_f_per_min", "trend"}),
        ("half a lamb on the bone", {"food_on"}),
        ("dropped a burger on the grass", {"food_on"}),
        ("rain put the fire out an hour ago", {"lit_ago_min"}),
        ("twelve degrees off target", {"ambient_f"}),
        ("drop it to 225", {"trend"}),
        ("bring her down from 350 to 275", {"trend"}),
        ("closed the top a smidge 15 minutes ago", {"top_vent"}),
        ("ash is choking it I think", {"choked"}),
        ("Opened both vents because it dropped, now it's 340 and I wanted 275", {"trend"}),
        ("I turned it down an hour ago from 350, now 275", {"lid_opened_ago_min"}),
        ("it's at 225 by the lid which reads 25 low", {"over_f"}),
        ("topped up with a full chimney 10 min ago", {"top_vent"}),
        ("lots of ash falling out the bottom when i open the slide", {"trend"}),
        ("gauge reads 40 over what the probe says", {"over_f"}),
        ("smoke coming back down at me", {"trend"}),
        ("tongs fell in the fire", {"trend"}),
        ("rain got in the top", {"fire_out"}),
        ("glowing red all over", {"trend"}),
        ("plan b", {"bottom_vent"}),
        ("it reads 215 to 220", {"trend"}),
        ("added a chimney of unlit", {"stage"}),
        ("I left the pork in the car for 3 hours", {"food_on_for_min"}),
        ("a branch fell on it", {"trend"}),
        ("chunk the size of a fist every half hour", {"vents_moved_every_min"}),
    ],
)
def test_it_reaches_no_further(listen, words, unheard):
    assert not unheard & listen(words).facts.keys()


def test_a_denied_name_is_no_cooker(listen):
    heard = listen("not the left one, the right one. thats the one at 380")
    assert heard.cooker == "right" and heard.facts == {"dome_f": 380} and not heard.others


@pytest.mark.parametrize("words", ["haven't touched anything for an hour", "can't get it below 300",
                                   "isn't climbing any more", "hasn't moved off 240", "when I lit it it was raining",
                                   "did what you told me and it's worse"])
def test_a_denial_is_no_question(listen, words):
    assert "ask" not in listen(words).intents


def test_a_lid_kept_down_is_no_step_refused(listen):
    assert "cannot" not in listen("i won't open the lid again promise").intents


def test_yo_yoing_greets_nobody(listen):
    assert "greeting" not in listen("yo-yoing").intents


def test_and_now_in_a_story_asks_nothing(listen):
    assert "what_now" not in listen("dropped a chunk in 5 min ago and now smoke is thick and grey").intents


def test_what_was_meant_to_be_corrects_nothing(listen):
    assert "correction" not in listen("meant to be at 250 and it's 290").intents
    assert "correction" in listen("meant 250").intents
