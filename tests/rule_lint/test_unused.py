"""Check `unused`: what the lists define and no rule uses."""


def test_a_finding_a_caution_and_a_derived_fact(tiny):
    tiny.replace("findings.yaml", "findings:\n", "findings:\n  ash-chokes: {family: x, says: Ash.}\n")
    tiny.replace("cautions.yaml", "cautions:\n", "cautions:\n  hot: {level: note, says: Hot., source: from memory}\n")
    tiny.replace("vocabulary.yaml", "derived:\n", "derived:\n  chasing: {type: flag, says: chased}\n")
    assert [line.split(",")[0] for line in tiny.found("unused")] == [
        "cautions.yaml:2: nothing brings up hot", "findings.yaml:2: no rule points to ash-chokes",
        "vocabulary.yaml:26: nothing concludes chasing"]


def test_evidence_against_counts_as_use(tiny):
    tiny.replace("findings.yaml", "findings:\n", "findings:\n  ash-chokes: {family: x, says: Ash.}\n")
    tiny.rule("diagnose/against", then={"points_to": {"ash-chokes": -0.4}})
    assert tiny.found("unused") == []
