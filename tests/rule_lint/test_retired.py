"""Check `retired-ids`: an id is used once."""


def test_a_retired_id(tiny):
    tiny.write("retired-ids.txt", "# gone\nteach/wind--shelter  # 2026, nobody asked\n")
    assert tiny.only("retired-ids").startswith("teach/wind--shelter.yaml:1: the id teach/wind--shelter was retired "
                                               "(retired-ids.txt, line 2)")


def test_other_ids_and_comments(tiny):
    tiny.write("retired-ids.txt", "# teach/wind--shelter\nrecover/wind--shelter\n\n")
    assert tiny.found("retired-ids") == []
