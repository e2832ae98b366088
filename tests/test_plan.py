"""How procedures join: one a concern, the urgent first, nothing that clashes, cautions with what needs them."""

from advisor.plan import make_plan
from advisor.questions import change_of_plan
from advisor.wording import Wording


def test_the_same_inference_gives_the_same_plan(advise, rulebook):
    advice = advise(over_f=100)
    again = make_plan(advice.inference, rulebook.catalogue, Wording(rulebook.vocabulary))
    assert again == advice.plan


def test_one_procedure_a_concern(advise):
    plan = advise(over_f=100, gauge_suspect=True, gasket_leaks=True, smoke="white", wood_added_ago_min=3).plan
    concerns = [firing.rule.then.concern for firing in plan.chosen]
    assert len(concerns) == len(set(concerns))


def test_what_is_set_aside_says_why(advise):
    plan = advise(dome_f=250, target_f=250, lid_opened_ago_min=2, trend="falling", gasket_leaks=True).plan
    assert all(aside.why for aside in plan.set_aside)


def test_a_vent_moved_a_minute_ago_puts_a_wait_in_front(advise):
    plan = advise(over_f=50, vents_moved_ago_min=1).plan
    assert (plan.steps[0].act, plan.steps[0].wait_min) == ("wait", 4)


def test_the_first_wait_is_when_to_look_again(advise):
    assert advise(over_f=100).plan.check_in_min == 5


def test_dangers_stand_before_other_cautions(advise):
    levels = [caution.level for caution in advise(over_f=150, dome_f=450).plan.cautions]
    assert levels == sorted(levels, key=("danger", "warning", "note").index)


def test_an_act_brings_the_cautions_it_needs(advise):
    assert {"open-a-crack-first", "hot-ceramic"} <= {c.id for c in advise(over_f=100).plan.cautions}


def test_distance_of_plans(advise):
    hot, warm = advise(over_f=100).plan, advise(over_f=100, lit_ago_min=20).plan
    assert change_of_plan(hot, hot) == 0
    assert 0 < change_of_plan(hot, warm) <= 1
    assert change_of_plan(hot, warm) == change_of_plan(warm, hot)
