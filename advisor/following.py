"""What a turn means for the plan under way: whether it still holds, which timer runs, and where it stands. Pure."""

from dataclasses import replace

from advisor.advice import Advice
from advisor.composing import Turn
from advisor.cook import Cook, Waiting, waiting_after
from advisor.course import course_of
from advisor.reply import Reply
from advisor.rulebook.catalogue import Catalogue
from advisor.standing import standing_of, three_lines
from advisor.wording import Wording


def followed(turn: Turn, cook: Cook, advice: Advice, catalogue: Catalogue, wording: Wording,
             now: float) -> tuple[Turn, Waiting | None]:
    """The turn with what it means for the plan of `cook`, and the timer that runs from now on."""
    plan, waiting = advice.plan, cook.waiting
    told = {name: value for name, value in turn.heard.items() if name != "cooker"}
    if turn.brings or waiting is None:
        waiting = waiting_after(cook, turn.did, plan.steps, plan.check_in_min, now)
    if turn.did and waiting and plan.steps:
        turn = replace(turn, look_again_min=round(waiting.until_min - now, 1))
    if told and cook.steps and plan.steps and not plan.is_emergency:
        course = course_of(cook, told, plan.steps, waiting, catalogue, wording, now)
        turn = replace(turn, before=(*turn.before, course.says), on_course=course.same)
    if not turn.brings and "about" in turn.passing and cook.steps and plan.steps and not plan.is_emergency:
        course = course_of(cook, turn.passing, plan.steps, waiting, catalogue, wording, now)
        if course.same:  # a question of the trade in the middle of a plan wants its answer, not the plan again
            turn = replace(turn, before=(*turn.before, course.says), short=True)
    return turn, waiting


def in_three_lines(reply: Reply, cook: Cook, advice: Advice, catalogue: Catalogue, wording: Wording, now: float) -> Reply:
    """The reply with three lines for its text: where the cook stands, what is in hand, what comes next."""
    lines = three_lines(standing_of(cook, advice.facts, now), reply.cautions, catalogue.phrases, wording)
    return reply.model_copy(update={"text": lines})
