"""The chart: the whole rule base, in kitchen words, as text of any width and as one page."""

import re
from html.parser import HTMLParser

import pytest

from advisor.rule_lint import map_html, map_lines
from advisor.rule_lint.chart import chart_of

VOID = {"meta", "br", "link", "img"}


class Page(HTMLParser):
    """Open elements, all tags with their attributes, and the text of a page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict]] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data


def test_the_chart_leads_from_symptom_to_finding_to_steps_to_cautions(tiny):
    chart = chart_of(tiny.rulebook)
    (row,) = chart.families["too-hot"]
    assert row.finding == "too-much-air" and row.signs[0].weight == 0.6
    assert row.signs[0].when == "it is windy, how badly it is over: small or far"
    (procedure,) = row.procedures
    assert procedure.steps[0] == "Shut the top vent. Wait 5 minutes."
    assert procedure.steps[2] == "At [the target], set the top vent [the top setting that holds the target]."
    assert procedure.when == "too much air is likely, how badly it is over: far; unless the lid is open"
    assert procedure.cautions == ("open-a-crack-first",)


def test_what_needs_no_finding_stands_under_its_concern(tiny):
    tiny.steps({"act": "read_dome", "says": "Read it."}, when={"smoke": {"not": "none"}, "windy": False})
    (procedure,) = chart_of(tiny.rulebook).straight["gear"]
    assert procedure.when == "the smoke: not none, not: it is windy"


def test_dangers_come_first_and_say_when(tiny):
    cares = chart_of(tiny.rulebook).cares
    assert [care.level for care in cares] == ["danger", "warning"]
    assert cares[0].when == ("before you burp the lid",)
    assert cares[1].when == ("it is windy, the lid is open",)


@pytest.mark.parametrize("width", [20, 40, 72, 100, 200])
def test_no_line_is_wider_than_asked(rulebook, width):
    assert max(map(len, map_lines(rulebook, width))) <= width


@pytest.mark.parametrize("width", [40, 120])
def test_every_finding_step_and_caution_stands_in_the_text(tiny, width):
    words = " ".join(" ".join(map_lines(tiny.rulebook, width)).split())
    for part in ("too-much-air:", "Burp it once.", "open a crack first", "Sparks fly"):
        assert all(word in words for word in part.split())


def test_every_rule_of_the_shipped_base_is_on_the_page(rulebook):
    text = Page(map_html(rulebook)).text
    missing = [rule.id for rule in rulebook.of("recover") if rule.file.title not in text]
    assert missing == []
    chart = chart_of(rulebook)
    assert len(chart.answers) == len(rulebook.of("teach"))
    assert len(chart.cares) == len(rulebook.catalogue.cautions)


def test_the_page_is_well_formed_and_needs_nothing_else(rulebook):
    page = map_html(rulebook)
    parsed = Page(page)
    assert parsed.open == []
    assert not [tag for tag, attrs in parsed.tags if tag in ("script", "link", "img", "iframe") or "src" in attrs]
    assert not re.search(r"url\(|@import|https?:", page)
    targets = {attrs["id"] for _, attrs in parsed.tags if "id" in attrs}
    assert {attrs["href"].removeprefix("#") for tag, attrs in parsed.tags if tag == "a"} <= targets


def test_words_of_rules_can_not_break_the_page(tiny):
    tiny.rule("teach/odd", then={"tell": "a < b & <script>alert(1)</script>"}, title="<b>")
    page = map_html(tiny.rulebook)
    assert "<script" not in page and "a &lt; b &amp; &lt;script&gt;" in page


def test_ink_stands_out_from_paper(rulebook):
    page = map_html(rulebook)
    for name in ("ink", "danger", "warning"):
        assert contrast(re.search(rf"--{name}: (#\w+)", page)[1], "#fff") >= 7


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2 defines it."""
    lights = sorted((luminance(one), luminance(other)))
    return (lights[1] + 0.05) / (lights[0] + 0.05)


def luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(digit * 2 for digit in colour[1:])
    parts = [int(digits[at:at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_the_wall_chart_names_each_finding_and_what_to_do_and_marks_where_the_lid_opens(tiny):
    tiny.steps({"act": "read_dome", "says": "Read it."}, standing="rescue", title="Read it at once")
    wall = map_html(tiny.rulebook).partition('<section id="wall">')[2].partition("</section>")[0]
    assert "<h3>At once</h3><ul><li>Read it at once</li></ul>" in wall
    assert ('<li><b>It gets too much air.</b> → Shut the top for a while <b class="mark">lid: crack it first</b></li>'
            in wall)


def test_a_conclusion_stands_once_with_all_the_ways_that_lead_to_it(tiny):
    tiny.rule("understand/black", when={"smoke": "black"}, unless={"over_f": {"known": True}})
    meanings = dict(chart_of(tiny.rulebook).meanings)
    assert meanings["how badly it is over: far"] == (
        "the smoke: black; unless the distance from the target: known", "the distance from the target: at least 75 °F")
