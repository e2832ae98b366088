"""Check `keys`: one order, each key once."""


def test_keys_out_of_order(tiny):
    tiny.replace("teach/wind--shelter.yaml", "status: trusted\n", "")
    tiny.replace("teach/wind--shelter.yaml", "because:", "status: trusted\nbecause:")
    assert tiny.only("keys").startswith("teach/wind--shelter.yaml:7: status stands after then")


def test_keys_of_then_out_of_order(tiny):
    steps = [{"act": "read_dome", "says": "Read it."}]
    tiny.rule("recover/probe", then={"standing": "check", "concern": "gear", "steps": steps})
    assert "concern stands after standing" in tiny.only("keys")


def test_a_fact_twice_under_when(tiny):
    tiny.replace("diagnose/too-much-air--wind.yaml", "  windy: true\n", "  windy: true\n  windy: false\n")
    assert tiny.only("keys").startswith("diagnose/too-much-air--wind.yaml:6: windy stands here twice")


def test_a_fact_twice_in_a_case_and_an_entry_twice_in_a_list(tiny):
    tiny.write("teach/wind--shelter.cases.yaml", "fires: [{about: wind}]\nsilent: [{windy: true, windy: false}]\n")
    tiny.replace("findings.yaml", "findings:\n", "findings:\n  too-much-air: {family: x, says: Old.}\n")
    assert len(tiny.found("keys")) == 2
