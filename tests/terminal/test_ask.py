"""`drafthand ask` and the calls that go wrong: options anywhere, one sentence, the right status."""

import json
import shutil
import subprocess
import sys

import pytest

from advisor.rulebook.loader import rules_folder

WORDS = "im 100 over what now"
ASK_AND_LIST_MODULES = """
import sys
from advisor.__main__ import main
main(["ask", "dome 300", "--json"])
print(sorted(sys.modules))
"""


@pytest.mark.parametrize("words", [("--json", WORDS), (WORDS, "--json"), (*WORDS.split(), "--json"),
                                   ("im", "100", "--json", "over", "what", "now")])
def test_options_stand_anywhere(drafthand, words):
    status, output, errors = drafthand("ask", *words)
    assert (status, errors) == (0, "")
    assert json.loads(output)["heard"]["over_f"] == 100


def test_without_json_the_text_is_printed_as_it_is(drafthand):
    text = json.loads(drafthand("ask", WORDS, "--json")[1])["text"]
    assert drafthand("ask", WORDS)[1] == text + "\n"


def test_words_that_begin_with_a_minus_are_words(drafthand):
    assert drafthand("ask", "-40 under", "--json")[0] == 0


def test_a_profile_chooses_the_cooker(drafthand, tmp_path):
    profile = tmp_path / "small.yaml"
    profile.write_text("name: small\nbottom_travel_in: 3\n")
    assert drafthand("ask", "--cooker", str(profile), WORDS)[0] == 0


@pytest.mark.parametrize(("words", "status", "says"), [
    (("ask",), 2, "required: WORDS"),
    (("ask", WORDS, "--jsn"), 2, "--jsn"),
    (("ask", WORDS, "--cooker"), 2, "--cooker"),
    (("ask", WORDS, "--cooker", "nowhere.yaml"), 1, "nowhere.yaml"),
    (("aks", WORDS), 2, "did you mean ask"),
    ((WORDS,), 2, "drafthand ask"),
    (("rules", "chek"), 2, "chek"),
    (("plan", "pulled pork for 12"), 2, "not built yet"),
    (("--colour",), 2, "--colour"),
    (("replay", "nowhere.md"), 1, "nowhere.md"),
    (("accept",), 2, "FILE"),
])
def test_a_call_that_is_off_gets_one_sentence(drafthand, words, status, says):
    got, output, errors = drafthand(*words)
    assert got == status
    assert says in errors and output == ""
    assert errors.startswith("drafthand: ") and errors.count("\n") == 1


@pytest.mark.parametrize("hostile", ["", " ", "a" * 10_000, "\x1b[2J\x07", "🔥🔥🔥", "темп слишком высокая", "300 " * 500,
                                     "dome 5000", "NaN", "\t\r\n", "{}", "' or 1=1"])
def test_hostile_words_are_answered(drafthand, hostile):
    status, output, errors = drafthand("ask", "--json", "--", hostile)
    assert (status, errors) == (0, "")
    reply = json.loads(output)
    assert reply["text"] and not reply["steps"]


def test_bytes_that_are_no_text_are_answered():
    done = subprocess.run([sys.executable, "-m", "advisor", "ask", "--json", b"dome 300 \xff\xfe"],
                          capture_output=True, check=False)
    assert done.returncode == 0
    assert json.loads(done.stdout)["heard"]["dome_f"] == 300


def test_an_output_that_knows_no_degree_sign_gets_the_rest(drafthand):
    status, output, _ = drafthand("ask", WORDS, PYTHONIOENCODING="ascii", LC_ALL="C")
    assert status == 0 and "100" in output


@pytest.mark.parametrize("redirected", [">/dev/full", ">&-"])
def test_output_that_cannot_be_written_is_one_sentence(redirected):
    done = subprocess.run(f'"{sys.executable}" -m advisor ask "dome 300" {redirected}', shell=True,
                          capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr.startswith("drafthand: the output cannot be written") and done.stderr.count("\n") == 1


def test_a_rules_folder_that_is_missing_is_one_sentence(drafthand, tmp_path):
    status, _, errors = drafthand("ask", WORDS, DRAFTHAND_RULES=str(tmp_path / "none"))
    assert status == 1
    assert "no such folder" in errors and errors.count("\n") == 1


@pytest.mark.parametrize(("file", "text", "says"), [
    ("recover/far-over--choke-and-burp.yaml", "id: far-over--choke-and-burp\nwhem: {}\n", "far-over--choke-and-burp.yaml:"),
    ("recover/far-over--choke-and-burp.yaml", "then: [", "far-over--choke-and-burp.yaml:"),
    ("recover/far-over--choke-and-burp.yaml", "\x00\x01", "far-over--choke-and-burp.yaml"),
    ("vocabulary.yaml", "", "vocabulary.yaml"),
    ("phrases.yaml", None, "phrases.yaml"),
])
def test_a_rule_base_with_a_fault_is_one_sentence_that_names_the_place(drafthand, tmp_path, file, text, says):
    folder = shutil.copytree(rules_folder(), tmp_path / "rules")
    (folder / file).unlink()
    if text is not None:
        (folder / file).write_text(text)
    status, output, errors = drafthand("ask", WORDS, DRAFTHAND_RULES=str(folder))
    assert (status, output) == (1, "")
    assert says in errors and errors.count("\n") == 1 and "fault of the program" not in errors


@pytest.mark.parametrize("text", ["bottom_travel_in: wide", "top_travel: 3", "- a list", ": : :", "\x00", "", None])
def test_a_profile_that_is_off_is_one_sentence(drafthand, tmp_path, text):
    profile = tmp_path / "cooker.yaml"
    if text is not None:
        profile.write_text(text)
    status, _, errors = drafthand("ask", WORDS, "--cooker", str(profile))
    assert (status, errors) == (0, "") if text == "" else status == 1
    assert text == "" or ("cooker.yaml" in errors and errors.count("\n") == 1)
    assert "fault of the program" not in errors


def test_ask_imports_nothing_heavy():
    listed = subprocess.run([sys.executable, "-c", ASK_AND_LIST_MODULES], capture_output=True, text=True, check=True).stdout
    modules = listed.splitlines()[-1]
    for heavy in ("prompt_toolkit", "numpy", "scipy", "advisor.rule_lint", "advisor.transcripts", "durable.lang",
                  "sqlalchemy", "advisor.session", "advisor.settings", "advisor.logbook"):
        assert f"'{heavy}" not in modules, heavy
