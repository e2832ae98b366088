"""Check `source`: where figures come from is said."""

import pytest

FIGURE = {"over_f": {"at_least": 80}}


@pytest.mark.parametrize("source", ["todo", "?", "unknown", "experience", "n/a", "-"])
def test_a_source_that_says_nothing(tiny, source):
    tiny.rule("teach/fact", source=source)
    assert tiny.only("source").startswith("teach/fact.yaml:9: the source says nothing")


@pytest.mark.parametrize("source", ["common practice", "what the cook says", "we all know that"])
def test_a_figure_without_a_source(tiny, source):
    tiny.rule("teach/figure", when=FIGURE, source=source)
    assert "names no source" in tiny.only("source")
    tiny.rule("teach/figure", source=source, title="Wait 20 minutes")
    assert "names no source" in tiny.only("source")


def test_steps_with_figures_need_a_source(tiny):
    tiny.steps({"act": "wait", "says": "Wait a while.", "wait_min": 12}, source="what cooks say")
    assert "names no source" in tiny.only("source")


@pytest.mark.parametrize("source", [
    "common practice, no published source", "limit used with ASTM C1055", "a paper of 1975, from memory",
    "a journal, 1998", "city fire department guidance", "arithmetic"])
def test_a_figure_with_a_source(tiny, source):
    tiny.rule("teach/figure", when=FIGURE, source=source)
    assert tiny.found("source") == []


def test_without_a_figure_plain_words_are_enough(tiny):
    tiny.rule("teach/plain", source="what the cook says")
    assert tiny.found("source") == []


def test_cautions_and_the_chart_are_looked_at_too(tiny):
    text = (tiny.folder / "cautions.yaml").read_text().replace("common practice, no published source", "folk", 1)
    tiny.write("cautions.yaml", text)
    tiny.replace("vent-chart.yaml", "common practice, no published source", "tbd")
    assert [line.split(":")[:2] for line in tiny.found("source")] == [["cautions.yaml", "6"], ["vent-chart.yaml", "1"]]
