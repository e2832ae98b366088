"""What puzzled newcomers say over several turns: once misheard, each with what stood before."""

import pytest

from advisor.units import UnitStyle

GOING = {"smoke": "white", "wood_added_ago_min": 5.0}
SHUT = {"top_vent": 0.0}


@pytest.mark.parametrize(
    ("words", "context", "facts"),
    [
        ("one touched the lid", {}, {"burnt_skin": True}),
        ("its red, not blistered", {}, {"burnt_skin": True}),
        ("held it under the tap 10 minutes now", {}, {"burn_cooled": True}),
        ("ok putting them on", {}, {"food_on": True, "food_on_for_min": 0}),
        ("threw it all", {}, {"food_thrown": True}),
        ("it wont go over 200", {}, {"dome_f": 200, "said_off": "cold"}),
        ("we are closing, whats next", {}, {"stage": "shutting_down"}),
        ("ok thats service over, 280 on the dial", {}, {"stage": "shutting_down", "dome_f": 280}),
        ("smoke comes out the side", {}, {"gasket_leaks": True}),
        ("done, top is a crack open", {}, {"top_vent": 0.05}),
        ("about a third of the coals", {"asked": "wood_share"}, {"wood_share": 0.33}),
        ("the wood is about a third of the coals", {}, {"wood_share": 0.33}),
        ("added 2 chunks of oak", {}, {"wood_added_ago_min": 0}),
        ("it wont drop with both shut", {}, {"bottom_vent": 0, "top_vent": 0}),
        ("not coming down with the bottom closed", {}, {"bottom_vent": 0}),
        ("its off, resting", {}, {"food_on": False, "resting": True}),
        ("took some out, grey now", {"facts": GOING}, {"smoke": "grey", "wood_taken_out": True}),
        ("262 instead of 250", {}, {"dome_f": 262, "target_f": 250}),
        ("its 262 rather than 250", {}, {"dome_f": 262, "target_f": 250}),
        ("Reads 10 low in boiling water", {}, {"gauge_suspect": True}),
        ("chicken thighs on at 350, need them for 6pm", {"minute_of_day": 720},
         {"food_on": True, "serve_in_min": 360}),
        ("ok lit it in the middle with a cube", {}, {"stage": "lighting"}),
        ("it dropped to 240 since i opened it", {}, {"dome_f": 240, "lid_was_open": True}),
        ("its ok they stopped", {"facts": {"flames": True}}, {"flames": False}),
        ("ok they are off", {"facts": {"food_on": True}}, {"food_on": False}),
        ("black stuff dripping from the lid on the meat", {}, {"creosote": True}),
        ("i shut down the fire", {}, {"stage": "shutting_down"}),
        ("i think its damp, it was in the rain", {}, {"charcoal_state": "damp"}),
        ("it smells like a campfire", {}, {"smell": "clean"}),
        ("number two lit", {"cookers": ("1", "2")}, {"stage": "lighting"}),
        ("wrapped in foil", {}, {"food_wrapped": True}),
        ("all the way round", {"facts": {"gasket_leaks": True}}, {"gasket_leaks": True}),
        ("done, shut them all down", {}, {"stage": "shutting_down"}),
        ("closed it all", {"facts": {"flames": True}}, {"bottom_vent": 0, "top_vent": 0}),
        ("fire still there", {"facts": {"flames": True}}, {"flames": True}),
        ("ok im outside", {}, {"people_out": True}),
        ("fire brigade says its fine", {"facts": {"co_symptoms": True}}, {"co_symptoms": False, "felt_ill": False}),
        ("put the pork on", {}, {"food_on": True, "food_on_for_min": 0}),
        ("didnt say i want 225", {}, {"target_f": 225}),
        ("smoke everywhere in the kitchen from the bbq outside", {}, {"indoors": False}),
        ("and 230 on the dome one", {"facts": {"boiling_reads_f": 212.0}, "recent": frozenset({"boiling_reads_f"})},
         {"boiling_reads_f": 230}),
        ("380", {"asked": "target_f", "facts": {"dome_f": 420.0}}, {"dome_f": 380}),
        ("375", {"asked": "target_f", "facts": {"dome_f": 420.0}}, {"target_f": 375}),
        ("thin now", {"facts": {"smoke_amount": "heavy"}}, {"smoke_amount": "light"}),
        ("wait no its under", {"facts": {"over_f": 100.0}, "recent": frozenset({"over_f"})}, {"over_f": -100}),
        ("no sorry too low", {"facts": {"over_f": 30.0}, "recent": frozenset({"over_f"})}, {"over_f": -30}),
        ("opened the top", {"facts": SHUT}, {"vents_moved_ago_min": 0}),
        ("its hot", {}, {"said_off": "hot"}),
        ("opened them a bit", {}, {"vents_moved_ago_min": 0}),
        ("closed it a touch", {}, {"vents_moved_ago_min": 0}),
        ("brought it to 225 but it keeps creeping up, 240", {}, {"target_f": 225, "dome_f": 240, "trend": "rising"}),
        ("threw two on", {"facts": {"wants_more_smoke": True}}, {"wood_added_ago_min": 0}),
        ("shut it down an hour ago, still 250", {}, {"stage": "shutting_down", "dome_f": 250}),
        ("no, not white, sort of brown", {"asked": "food_on", "facts": {"smoke_amount": "heavy"}}, {"smoke": "yellow"}),
        ("kind of like burning hair", {}, {"smell": "chemical"}),
        ("ok found it, oven glove fell in", {}, {"plastic_in": True}),
        ("got it out", {"facts": {"plastic_in": True}}, {"plastic_in": False}),
        ("its out", {"facts": {"fire_spreads": True, "flames": True}}, {"fire_spreads": False}),
        ("its cold now", {"facts": {"stage": "shutting_down"}}, {"fire_out": True}),
    ],
)
def test_it_is_heard(listen, words, context, facts):
    heard = listen(words, **context).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("words", "context", "unheard"),
    [
        ("still 400 after 10 min", {}, {"lit_ago_min"}),
        ("its off, resting", {}, {"gauge_suspect"}),
        ("should i shut the vents", {"asked": "top_vent"}, {"top_vent", "bottom_vent"}),
        ("would half open be better", {"asked": "top_vent"}, {"top_vent", "bottom_vent"}),
        ("Reads 10 low in boiling water", {}, {"over_f"}),
        ("top vent is shut. well no its open", {}, {"top_vent"}),
        ("the fire went quiet", {}, {"fire_out"}),
        ("the fire has gone mad", {}, {"fire_out"}),
        ("fire went up a lot", {}, {"fire_out"}),
        ("stuffed foil in the gap", {}, {"intact"}),
        ("how do i calm it", {}, {"trend"}),
        ("a kid asked why smoke is blue", {}, {"smoke"}),
        ("my wife wants to know if the lid is open", {}, {"lid_open"}),
        ("how about half of the coals", {}, {"wood_share"}),
    ],
)
def test_it_is_not_heard(listen, words, context, unheard):
    assert not unheard & listen(words, **context).facts.keys()


def test_no_more_flames_says_nothing_of_the_lid(listen):
    assert "lid_open" not in listen("no more flames", asked="lid_open", facts={"flames": True}).facts


def test_a_burnt_pizza_is_no_answer_on_the_smell(listen):
    assert "smell" not in listen("bottom burnt top raw", asked="smell").facts


def test_an_old_reading_is_taken_for_one(listen):
    heard = listen("last time I looked was 11, it was 245")
    assert not heard.facts and heard.intents == ("old_news",)


@pytest.mark.parametrize(
    ("words", "intent", "about"),
    [
        ("i cant hold it the knob is hot", "cannot", None),
        ("i did close them", "done", None),
        ("which one is the top vent", "ask", "vent_names"),
        ("whats the temp supposed to be inside", "ask", "what_temperature"),
        ("how do i know when they are done", "ask", "what_temperature"),
        ("how do i slow it down", "ask", "lower_heat"),
        ("can i use a hairdryer", "ask", "blow_air"),
        ("i teach a class, how do i keep them safe", "ask", "keep_safe"),
        ("a kid asked why smoke is blue", "ask", "smoke_colour"),
        ("all good", "thanks", None),
        ("nice", "thanks", None),
        ("problem solved", "thanks", None),
        ("its fine now", "thanks", None),
        ("you asked that already", "declined", None),
        ("i told you already", "declined", None),
        ("ok what was the question", "what_now", None),
        ("say that again", "what_now", None),
        ("thx whats my next move", "what_now", None),
        ("should i be worried", "ask", "leave_alone"),
        ("all ok?", "what_now", None),
        ("ought I to close the top now", "ask", "close_vents"),
        ("should i wait or move something", "ask", "leave_alone"),
        ("do I need to panic", "ask", "leave_alone"),
        ("any idea why its so smoky", "ask", "smoke_colour"),
        ("can i use wet wood", "ask", "soak_wood"),
        ("how much ash is too much", "ask", "ash_handling"),
        ("what is a deflector", "ask", "deflector_use"),
        ("whos this", "ask", "about_program"),
        ("that made it worse", "what_now", None),
        ("did what you told me", "done", None),
        ("is that steam", "ask", "smoke_colour"),
        ("whats up", "greeting", None),
        ("wrap?", "ask", "wrap"),
        ("how long now", "ask", "done_in_time"),
        ("is the chicken on 2 going to be ready", "ask", "done_in_time"),
        ("do i slice it now", "ask", "carve_now"),
        ("shut number 3 right down", "ask", "put_out"),
        ("how do i clean this mess up", "ask", "clean_cooker"),
        ("how much charcoal can i reuse", "ask", "reuse_charcoal"),
        ("can i put it in the oven at 300", "ask", "oven_finish"),
        ("is it safe to leave now", "ask", "leave_unattended"),
        ("shut down the right one", "ask", "put_out"),
        ("ribs look dry should i spritz", "ask", "spritz"),
    ],
)
def test_it_is_understood(listen, words, intent, about):
    heard = listen(words, facts={"food_on": True})
    assert intent in heard.intents and heard.about == about


def test_three_cookers_by_their_sides(listen):
    heard = listen("left one is 400, middle is 250 and right one is dead")
    assert {heard.cooker: heard.facts, **dict(heard.others)} == {
        "left": {"dome_f": 400}, "middle": {"dome_f": 250}, "right": {"fire_out": True}}


def test_what_holds_for_all_cookers(listen):
    heard = listen("all should be 300", cookers=("left", "right"), current="left")
    assert heard.facts == {"target_f": 300} and dict(heard.others) == {"right": {"target_f": 300}}
    assert not listen("both shut", cookers=("left", "right"), current="left").others


def by_cooker(heard):
    return {heard.cooker: heard.facts, **dict(heard.others)}


def test_bare_numbers_with_readings_are_cookers(listen):
    heard = by_cooker(listen("got three on the go, 1 at 275 2 at 290 3 at 400, all meant to be 275"))
    assert heard == {number: {"dome_f": dome, "target_f": 275} for number, dome in (("1", 275), ("2", 290), ("3", 400))}


def test_a_known_number_with_a_word_on_its_fire_is_a_cooker(listen):
    heard = by_cooker(listen("number 1 250, 2 steady, 3 dropping", cookers=("1", "2", "3"), current="1"))
    assert heard == {"1": {"dome_f": 250}, "2": {"trend": "steady"}, "3": {"trend": "falling"}}


def test_food_on_a_known_number_names_the_cooker(listen):
    going = {"cookers": ("1", "2"), "current": "1"}
    assert listen("is the chicken on 2 going to be ready", **going).cooker == "2"
    assert listen("the lid on 2 is open", **going).cooker == "2"
    assert listen("chicken on for 2 hours", **going).cooker is None
    assert listen("chicken went on at 2", **going).cooker is None


def test_a_lone_figure_after_the_meat_is_the_meat(listen):
    known = {"meat_f": 170.0, "dome_f": 225.0, "target_f": 225.0}
    assert listen("203!", facts=known, recent=frozenset({"meat_f"})).facts == {"meat_f": 203}
    assert listen("230", facts=known, recent=frozenset({"meat_f"})).facts == {"dome_f": 230}
    assert listen("203", facts=known, recent=frozenset({"dome_f"})).facts == {"dome_f": 203}


def test_bare_sides_with_their_readings_are_cookers(listen):
    assert by_cooker(listen("left 300, right 320")) == {"left": {"dome_f": 300}, "right": {"dome_f": 320}}


def test_the_other_one_is_the_one_not_in_hand(listen):
    assert listen("the other one is 300", cookers=("left", "right"), current="left").cooker == "right"
    assert listen("the other one is 300", cookers=("1", "2", "3"), current="1").cooker is None


def test_a_numbered_cooker_that_is_out_is_a_fire_out(listen):
    assert listen("number 3 is out").facts == {"fire_out": True}


@pytest.mark.parametrize(("words", "about"), [
    ("ok i put charcoal in, how much", "fuel_needed"), ("how far do i close it", "close_vents"),
    ("how do i add more", "fuel_in_midcook"), ("how long do i rest it", "carve_now"), ("do i need water in a pan", "water_pan"),
    ("what do i do with the fire", "put_out"), ("what do i need", "first_cook"),
    ("so i got this thing for my birthday and have no clue", "first_cook"),
    ("how do i get going again", "lighting"), ("can i still cook", "cook_with_fault"),
    ("how do i cook without it", "no_thermometer"),
    ("whats the best way to open it at this heat", "open_safely"), ("how long should i preheat the stone", "heat_soak"),
    ("can i put it on", "ready_for_food"), ("can i go back and shut it", "is_it_over"),
    ("is it stuck", "meat_stall"), ("its dead?", "is_fire_alive"), ("wrap and rest?", "wrap"),
    ("maybe its the gasket", "gasket_check"),
    ("so how do i get it to die", "put_out"),
    ("can i save them", "food_safe"), ("shut down b", "put_out"), ("my ribs are black is that ok", "food_safe"),
    ("skin is rubbery", "crisp_skin"),
    ("My sister ate some of it half raw and now feels sick", "food_ill"),
    ("i ate raw chicken what should i do", "food_ill"), ("is it food poisoning", "food_ill"),
    ("would a fan help", "blow_air"), ("can kids be near it", "keep_safe"), ("how long can chicken sit out", "food_safe"),
    ("is it normal that it drops when i open it", "lid_dip"), ("does the deflector make it slower", "deflector_use"),
])
def test_a_question_has_its_topic(listen, words, about):
    heard = listen(words)
    assert heard.about == about and "correction" not in heard.intents


def test_it_is_celsius_puts_the_scale_right(listen):
    assert listen("oh hang on it's celsius", facts={"dome_f": 120.0}).facts == {"dome_f": 248}


def test_no_second_one_is_no_cooker(listen):
    assert listen("no second one").cooker is None


def test_smaller_flames_are_flames_still(listen):
    assert listen("smaller now", facts={"flames": True}).facts["flames"] is True


def test_a_window_is_no_step_of_ours(listen):
    assert "done" not in listen("closed the window").intents


def test_a_vent_moved_by_nobody_knows_how_much_is_no_longer_known(listen):
    assert listen("opened the top", facts=SHUT).lost == ("top_vent", "top_vent_in")
    assert listen("opened the top to a quarter", facts=SHUT).lost == ()


def test_the_meat_stays_meat_in_celsius(listen):
    from advisor.units import UnitStyle
    heard = listen("meat 85, 110", units=UnitStyle(temperature="C"), facts={"meat_f": 158.0, "dome_f": 230.0})
    assert heard.facts == {"meat_f": 185, "dome_f": 230}


def test_a_stuck_vent_is_no_steady_dome(listen):
    assert "trend" not in listen("i cant close the bottom any more, stuck").facts
    assert "trend" not in listen("no the other way, bottom is open and top shut").facts


def test_units_asked_for_are_units_shown(listen):
    assert listen("in celsius please").units.temperature == "C"
    assert listen("use inches").units.length == "in" and listen("can you use cm").units.length == "cm"
    assert listen("its 250").units is None


def test_a_step_that_is_denied_is_not_done(listen):
    assert listen("did step 1 but not 2").done_steps == (1,)


def test_a_wish_carries_over_to_the_next_cookers(listen):
    heard = by_cooker(listen("pit 1 should be 275, pit 2 275, pit 3 350"))
    assert heard == {"1": {"target_f": 275}, "2": {"target_f": 275}, "3": {"target_f": 350}}
    heard = by_cooker(listen("pit 1 should be 275, pit 2 reads 290"))
    assert heard == {"1": {"target_f": 275}, "2": {"dome_f": 290}}


def test_short_names_of_numbered_cookers(listen):
    assert by_cooker(listen("p1 265, p2 290")) == {"1": {"dome_f": 265}, "2": {"dome_f": 290}}


def test_how_it_was_lit_does_not_light_it_again(listen):
    assert "stage" not in listen("lit it in 3 places", facts={"dome_f": 212.0}).facts
    assert listen("lit it in 3 places", facts={"dome_f": 80.0}).facts["stage"] == "lighting"
    assert listen("ok lit it", facts={"dome_f": 212.0}).facts["stage"] == "lighting"


def test_cookers_by_letter_and_by_what_is_on_them(listen):
    assert by_cooker(listen("pit A 250, pit B 275")) == {"a": {"dome_f": 250}, "b": {"dome_f": 275}}
    heard = by_cooker(listen("the pizza one is at 600 and the pork one at 225"))
    assert {name: facts["dome_f"] for name, facts in heard.items()} == {"pizza": 600, "pork": 225}


def test_another_cooker_of_ones_own_is_not_this_one(listen):
    assert listen("my other one runs at 300 with the top shut").cooker == "other"


def test_a_cooker_called_a_is_no_article(listen):
    heard = listen("B top closed a bit", cookers=("a", "b"), current="a")
    assert heard.cooker == "b" and not heard.others and "top_vent" not in heard.facts
    assert listen("A is smoking white", cookers=("a", "b"), current="b").cooker == "a"
    assert listen("kids near A", cookers=("a", "b"), current="b").cooker == "a"


def test_a_no_to_something_else_answers_nothing(listen):
    assert "food_on" not in listen("no, not white, sort of brown", asked="food_on").facts
    assert listen("no, not yet", asked="food_on").facts == {"food_on": False}


def test_food_moved_up_moves_no_vent(listen):
    assert "vents_moved_ago_min" not in listen("moved them up").facts


def test_a_fire_beside_it_that_is_out_leaves_the_flames_in_it(listen):
    assert "flames" not in listen("its out", facts={"fire_spreads": True, "flames": True}).facts


@pytest.mark.parametrize("colour", ["white", "black", "brown", "grey"])
def test_the_colour_of_a_cooker_is_no_smoke(listen, colour):
    assert listen(f"the {colour} one is at 300").facts == {"dome_f": 300}


def test_done_with_a_question_mark_is_no_step_done(listen):
    heard = listen("done?", facts={"meat_f": 162.0}, recent=frozenset({"meat_f"}))
    assert "done" not in heard.intents and heard.about == "food_safe"
    assert "done" in listen("done!").intents


@pytest.mark.parametrize(("words", "about"), [
    ("do wood chunks need soaking in water first", "soak_wood"),
    ("should i be seeing smoke the whole way through", "no_smoke_ok"),
    ("what makes it keep rising after you shut the vents", "why_hot"),
    ("could it heat the conservatory once the food is off", "run_indoors"),
    ("would it be alright in a big tent if we kept the flap open", "run_indoors"),
    ("should rain come, is wheeling it into the shed ok", "run_indoors"),
    ("thinking of moving it onto the glazed balcony, alright if one door is open?", "run_indoors"),
    ("whats heat soaked mean", "heat_soak"),
    ("is it normal for the temp to drop when meat goes on", "lid_dip"),
    ("should the bottom vent be wide open when lighting", "lighting"),
    ("do i want white smoke or blue", "smoke_colour"),
    ("so I close both vents?", "close_vents"),
    ("would it go out if i shut both for an hour", "put_out"),
    ("whats the point of the deflector", "deflector_use"),
    ("whats the difference between direct and indirect", "deflector_use"),
    ("can I use the pine off an old pallet", "never_burn"),
    ("which probe do i trust, grate or dome?", "real_temperature"),
    ("how do I test a thermometer in boiling water?", "gauge_check"),
    ("is it normal that the outside is hot", "touch_ceramic"),
    ("will a full basket get me 16 hours at 225", "fuel_needed"),
    ("is grease dangerous", "grease_fire_ahead"),
    ("would a top vent at a quarter hold 225?", "vent_setting"),
])
def test_a_newcomers_question_has_its_answer(listen, words, about):
    heard = listen(words)
    assert heard.about == about and "ask" in heard.intents


@pytest.mark.parametrize(("words", "facts"), [
    ("both vents were closed by my son maybe 45 min ago", {"vents_moved_ago_min": 45.0, "bottom_vent": 0.0, "top_vent": 0.0}),
    ("the bottom was opened half 10 minutes ago", {"vents_moved_ago_min": 10.0, "bottom_vent": 0.5}),
    ("top vent was shut earlier, its open a quarter now", {"top_vent": 0.25}),
    ("the vents were closed yesterday", {}),
])
def test_what_was_done_so_long_ago_is_a_deed_and_how_it_was_before_is_past(listen, words, facts):
    assert {name: value for name, value in listen(words).facts.items() if "vent" in name} == facts


def test_a_cooker_that_stands_on_one_side_is_named_by_it_alone(listen):
    heard = listen("left one 310 want 250, right one 225 want 225, middle not lit yet")
    assert dict(heard.others)["middle"] == {"stage": "laying"}
    later = listen("middle: just lit it", cookers=("left", "right", "middle"), current="left")
    assert later.cooker == "middle" and later.facts["stage"] == "lighting"


@pytest.mark.parametrize(("words", "context", "topic"), [
    ("the kids are playing near it, is that ok", {}, "keep_safe"),
    ("does that matter", {"recent": frozenset({"raining"})}, "weather"),
    ("ok charcoal is in, what now", {}, None),
])
def test_a_vague_question_is_about_what_was_told(listen, words, context, topic):
    assert listen(words, **context).about == topic


def test_held_under_the_tap_is_no_time_at_the_target(listen):
    assert "at_target_for_min" not in listen("held it under the tap 10 minutes now").facts


@pytest.mark.parametrize(("words", "context", "facts", "not_heard"), [
    ("oh no 370", {"asked": "smoke", "facts": {"dome_f": 310.0}}, {"dome_f": 370}, {"smoke"}),
    ("oh no", {"asked": "food_on"}, {}, {"food_on"}),
    ("is the charcoal gone?", {}, {}, {"fuel_level"}),
    ("no it stopped", {"asked": "deflector_in", "facts": {"flames": True}}, {"flames": False}, {"deflector_in"}),
    ("good to go?", {"asked": "smell"}, {}, {"smell"}),
    ("smoke is nearly gone", {}, {"smoke_amount": "light"}, {"fuel_level"}),
    ("been under the tap 20 minutes now", {"facts": {"burnt_skin": True}}, {"burn_cooled": True}, {"food_on_for_min"}),
    ("is there any ash left?", {}, {}, {"ash"}),
    ("white smoke: good or bad sign?", {}, {}, {"smoke"}),
    ("water boils at 95 here, we are at 1500m", {}, {"altitude_ft": 4921.26}, {"boiling_reads_f", "dome_f", "meat_f"}),
    ("75", {"asked": "target_f", "facts": {"dome_f": 230.0, "meat_f": 162.0}, "units": UnitStyle("C")}, {"meat_f": 167}, {"target_f"}),
])
def test_a_cry_a_question_and_a_pit_too_cold_state_nothing_else(listen, words, context, facts, not_heard):
    heard = listen(words, **context).facts
    assert {name: heard.get(name) for name in facts} == facts
    assert not not_heard & heard.keys()


def test_what_both_cookers_want_is_heard_of_both(listen):
    heard = listen("cook2 is at 400 and cook1 at 250 both want 250")
    assert (heard.cooker, heard.facts) == ("2", {"dome_f": 400, "target_f": 250})
    assert heard.others == (("1", {"dome_f": 250, "target_f": 250}),)
