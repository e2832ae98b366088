"""Check `questions`: questions that can't be weighed."""


def test_shares_that_do_not_add_up(tiny):
    tiny.replace("vocabulary.yaml", "share: 0.3}", "share: 0.5}")
    assert tiny.only("questions") == ("vocabulary.yaml:22: the shares for windy add up to 1.2, the question can't be "
                                      "weighed; let them add up to 1")


def test_an_answer_that_is_no_value(tiny):
    tiny.replace("vocabulary.yaml", "{value: false, share: 0.7}", "{value: calm, share: 0.7}")
    assert "windy was given as 'calm'" in tiny.only("questions")


def test_an_answer_out_of_bounds(tiny):
    tiny.replace("vocabulary.yaml", "{value: 350, share: 0.4}", "{value: 3500, share: 0.4}")
    assert "dome_f was given as 3500" in tiny.only("questions")


def test_a_question_without_answers(tiny):
    tiny.replace("vocabulary.yaml", "answers: [{value: 225, share: 0.6}, {value: 350, share: 0.4}]", "answers: []")
    assert "the question for dome_f has no answers" in tiny.only("questions")


def test_a_choice_without_values(tiny):
    tiny.replace("vocabulary.yaml", "{type: flag, says: the lid is open, ended_by: {smoke: none}}",
                 "{type: choice, says: the lid}")
    assert any("lid_open is a choice without values" in line for line in tiny.found("questions"))


def test_an_end_that_can_not_be_told(tiny):
    tiny.replace("vocabulary.yaml", "ended_by: {smoke: none}", "ended_by: {overshoot: far}")
    assert "overshoot can't be told" in tiny.only("questions")
