"""Check `asks-once`: only questions ask."""


def test_a_step_that_asks(tiny):
    tiny.steps({"act": "wait", "says": "Wait. Is it hot?"})
    assert "asks a question" in tiny.only("asks-once")


def test_a_text_that_asks(tiny):
    tiny.rule("teach/asking", then={"tell": "Who knows?"})
    assert "asks a question" in tiny.only("asks-once")


def test_statements_are_silent(tiny):
    tiny.steps({"act": "wait", "says": "Wait. See whether it is hot."})
    assert tiny.found("asks-once") == []
