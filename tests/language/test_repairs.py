"""What is taken back in the middle of a message, and sayings of one family with a miss of the blind sets."""

import pytest


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        # a figure put right
        ("dome is 220, no hang on i read it wrong, 250", {"dome_f": 250}),
        ("dome says 300. er no, 310", {"dome_f": 310}),
        ("tops a quarter. no, sorry, a half", {"top_vent": 0.5}),
        ("bottom an inch, wait no, two inches", {"bottom_vent_in": 2}),
        ("i want 275, actually make it 250", {"target_f": 250}),
        ("aiming for 225 i mean 250", {"target_f": 250}),
        ("two hours till dinner, er no, three", {"serve_in_min": 180}),
        ("lit it 20 minutes ago, sorry, 30", {"lit_ago_min": 30}),
        ("lit it half an hour ago, no wait, an hour", {"lit_ago_min": 60}),
        ("3 kilos of pork, oh no, 4", {"food_kg": 4}),
        ("meats at 150, my mistake, 160", {"meat_f": 160}),
        ("its 300, scratch that, 320 and climbing", {"dome_f": 320, "trend": "rising"}),
        # a denied one
        ("sorry, not 4 kilos of charcoal, 4 pounds", {"charcoal_kg": 1.81}),
        ("its not 350, its 250", {"dome_f": 250}),
        ("the bottom isnt half, its a quarter", {"bottom_vent": 0.25}),
        ("it wasnt 30 over it was 30 under", {"over_f": -30}),
        ("it isnt 20 under its 20 over", {"over_f": 20}),
        ("it isnt rising its falling", {"trend": "falling"}),
        ("not white, its grey smoke", {"smoke": "grey"}),
        ("the lid isnt open its shut", {"lid_open": False}),
        ("not wide open, half open, the bottom i mean", {"bottom_vent": 0.5}),
        ("a quarter open, the top i mean", {"top_vent": 0.25}),
        # another owner
        ("the meat's not at 190, the grate is", {"grate_f": 190}),
        ("the grate isn't at 300, the dome is", {"dome_f": 300}),
        # a flag turned round
        ("deflectors in, oh no its not, its leaning on the fence", {"deflector_in": False}),
        ("its raining, actually its not", {"raining": False}),
        ("ignore what i said about flames theres none", {"flames": False}),
        # what was advised and done
        ("Neighbour said to shut both vents. I did, 25 minutes ago", {"bottom_vent": 0, "top_vent": 0, "vents_moved_ago_min": 25}),
        ("my brother told me to open the bottom wide so i did", {"bottom_vent": 1}),
        ("my brother in law opened every vent. its doing 520", {"bottom_vent": 1, "top_vent": 1, "dome_f": 520}),
        ("the new lad shut both vents while it was roaring", {"bottom_vent": 0, "top_vent": 0, "choked": True}),
    ],
)
def test_the_later_word_stands(listen, words, facts):
    heard = listen(words).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("words", "facts", "not_heard"),
    [
        ("dome 300, sorry, 250 is the target", {"dome_f": 300, "target_f": 250}, set()),
        ("shut it, wait 10 minutes", {}, {"dome_f"}),
        ("its not at 250 yet, 230", {"dome_f": 230}, set()),
        ("my brother opened his vents right up", {}, {"bottom_vent", "top_vent"}),
        ("my neighbour said to shut both vents", {}, {"bottom_vent", "top_vent"}),
        ("i dont think it is rising", {}, {"flames"}),
        ("dome 300 want 250, no idea about the vents", {"dome_f": 300, "target_f": 250}, set()),
    ],
)
def test_what_was_not_taken_back_stands(listen, words, facts, not_heard):
    heard = listen(words).facts
    assert {name: heard.get(name) for name in facts} == facts
    assert not not_heard & heard.keys()


def test_a_cooker_that_was_not_meant_gets_nothing(listen):
    heard = listen("number two i mean not number one, its at 290")
    assert (heard.cooker, heard.facts, heard.others) == ("2", {"dome_f": 290}, ())


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        # breadths of a finger
        ("top vent is open a finger wide and its gone to 330", {"dome_f": 330, "top_vent_in": 0.75}),
        ("bottom open two thumbs", {"bottom_vent_in": 2}),
        ("bottom is a thumb wide", {"bottom_vent_in": 1}),
        ("top is cracked a finger's width", {"top_vent_in": 0.75}),
        ("bottom two fingers", {"bottom_vent_in": 1.5}),
        # deeds without a mark before them
        ("it was on 400 i shut everything and its come down to 340", {"dome_f": 340, "bottom_vent": 0, "top_vent": 0}),
        ("it was at 300 i closed the top and its 280", {"dome_f": 280, "top_vent": 0}),
        ("lid was left up while i answered the door its 450 now but lids shut again", {"dome_f": 450, "lid_open": False}),
        ("it was over 300 we opened the bottom half", {"bottom_vent": 0.5}),
        # a wish with its place
        ("clip on the grate reads 288, lid gauge says 325, aiming for 250 at the grate", {"grate_f": 288, "dome_f": 325, "target_f": 250}),
        ("want 275 at the dome, grate says 250", {"target_f": 275, "grate_f": 250}),
        # paces
        ("its 20 too hot and rising like a degree every minute", {"over_f": 20, "rate_f_per_min": 1, "trend": "rising"}),
        ("dropping 2 degrees every minute", {"rate_f_per_min": -2, "trend": "falling"}),
        ("falling about a degree a minute", {"rate_f_per_min": -1}),
        ("going up 5 each minute", {"rate_f_per_min": 5, "trend": "rising"}),
        ("climbing 5 a minute", {"rate_f_per_min": 5}),
        ("up ten degrees every five minutes", {"rate_f_per_min": 2}),
        ("coming down a couple of degrees a minute", {"rate_f_per_min": -2}),
        # fuel
        ("baskets still about half full but she wont climb past 215", {"fuel_level": 0.5, "dome_f": 215}),
        ("basket is maybe a third full", {"fuel_level": 0.33}),
        ("the basket's roughly two thirds full still", {"fuel_level": 0.67}),
        # to and fro
        ("every time i close the bottom it drops under 200, every time i open it shoots over 300", {"trend": "swinging"}),
        ("the minute I close it down it tanks, the minute I open up it rockets", {"trend": "swinging"}),
        ("whenever i open it it goes up and whenever i shut it it dies", {"trend": "swinging"}),
        ("if i close it a bit it falls, if i open it a bit it climbs", {"trend": "swinging"}),
        ("it goes up I close, it goes down I open, been at this two hours", {"trend": "swinging"}),
        # little smoke, little ash
        ("the smoke it was black, now it is white and only little", {"smoke": "white", "smoke_amount": "light"}),
        ("white smoke but just a tiny bit", {"smoke": "white", "smoke_amount": "light"}),
        ("only a wee bit of ash", {"ash": "light"}),
        ("tiny bit of ash under the grate", {"ash": "light"}),
        ("bit of ash, not much", {"ash": "light"}),
        # lid
        ("lid been up five minutes while i flip the wings", {"lid_open": True}),
        ("lids been open ten minutes", {"lid_open": True}),
        ("lid was up five minutes, its shut now", {"lid_open": False}),
        # weather
        ("wind just picked up and its jumped to 290", {"windy": True, "dome_f": 290}),
        ("winds getting up", {"windy": True}),
        ("rains stopped", {"raining": False}),
        ("rains started", {"raining": True}),
        ("the winds died down now", {"windy": False}),
        # wood
        ("chucked in two chunks of cherry just now", {"wood_added_ago_min": 0}),
        ("just now put a chunk of oak in", {"wood_added_ago_min": 0}),
        ("threw another lump of hickory on just now", {"wood_added_ago_min": 0}),
        # times held
        ("chicken has been sat at 150 inside for four minutes", {"meat_f": 150, "meat_held_for_min": 4}),
        ("pork sitting at 145 inside for five minutes", {"meat_f": 145, "meat_held_for_min": 5}),
        # nobody ill
        ("no headaches, nobodys dizzy or sick", {"co_symptoms": False}),
        ("nobodys got a headache", {"co_symptoms": False}),
        ("everyones fine, no headaches", {"co_symptoms": False}),
        # gasket
        ("new gasket last month, its still airtight no leaks", {"gasket_leaks": False}),
        ("gasket is new, no leaks", {"gasket_leaks": False}),
        ("seal is airtight", {"gasket_leaks": False}),
        # clock times with now told
        ("Brisket went on at ten last night. It's eight in the morning and it's at 188 inside.", {"food_on_for_min": 600, "meat_f": 188}),
        ("guests at six, its one o'clock now, 4 kilo shoulder", {"serve_in_min": 300, "food_kg": 4}),
        ("lit it at two, its now three thirty", {"lit_ago_min": 90}),
        ("service at 7, 4 now", {"serve_in_min": 180}),
        # shift in words of the trade
        ("been like that for ages", {"trend": "steady"}),
        ("hasn't budged in half an hour", {"trend": "steady"}),
        ("not moved a degree for an hour", {"trend": "steady"}),
        ("its been stuck there for ages", {"trend": "steady"}),
        ("same reading for the last half hour", {"trend": "steady"}),
        ("tha lid iss opn", {"lid_open": True}),
        ("da top is shutt", {"top_vent": 0}),
        ("botom vent clsd", {"bottom_vent": 0}),
        ("thick grey smoke, bitter smell. meat has only been on ten mins", {"smoke": "grey", "smell": "acrid", "food_on_for_min": 10}),
        ("new lad shut both vents on number one while it was roaring, fifteen minutes ago", {"choked": True, "vents_moved_ago_min": 15}),
    ],
)
def test_the_family_is_heard(listen, words, facts):
    heard = listen(words).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("words", "must_not"),
    [
        ("popped indoors to get a plate", "indoors"),
        ("i went inside for a minute", "indoors"),
        ("ive a pork shoulder waiting in the kitchen", "indoors"),
        ("ribs are sat in the kitchen", "indoors"),
        ("the kids are indoors", "indoors"),
        ("CO alarm in the kitchen is shouting but the cooker is outdoors by the back door", "indoors"),
        ("stick thermometer says 203, the leave in one says 188, same spot in the meat", "dome_f"),
        ("lid gauge fell off", "trend"),
        ("the handle fell off", "trend"),
        ("the top cap dropped off", "trend"),
        ("we tell beginners anything from 225 to 250 is fine, is that good teaching", "dome_f"),
        ("i teach my staff that 250 is plenty", "dome_f"),
        ("explain in one line what thin blue smoke means", "smoke"),
        ("tell me what black smoke means", "smoke"),
        ("what does it mean if the smoke is white", "smoke"),
        ("opened the top a crack", "bottom_vent"),
    ],
)
def test_nothing_of_it_is_taken(listen, words, must_not):
    assert must_not not in listen(words).facts


@pytest.mark.parametrize(
    ("words", "cooker", "facts"),
    [
        ("on two the top is shut", "2", {"top_vent": 0}),
        ("on number three the lid is open", "3", {"lid_open": True}),
        ("cooker twos deflector isnt in", "2", {"deflector_in": False}),
        ("number ones lid is open", "1", {"lid_open": True}),
    ],
)
def test_the_cooker_is_named_in_passing(listen, words, cooker, facts):
    heard = listen(words)
    assert (heard.cooker, {name: heard.facts.get(name) for name in facts}) == (cooker, facts)
