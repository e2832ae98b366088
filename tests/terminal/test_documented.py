"""Pages that cannot lie: every command stands in help, README and the pages, and README's sessions come out as printed."""

import re

import pytest
from readme import README, ROOT, played, sessions, set_up_lines

from advisor.terminal.calls import CALLS
from advisor.terminal.commandline import help_page
from advisor.terminal.commands import COMMANDS
from advisor.transcripts.format import KINDS, VERBS

PAGE = README.read_text(encoding="utf-8")
NOTATION = (ROOT / "transcripts_demo" / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("call", CALLS.values(), ids=lambda call: call.name)
def test_every_call_has_a_line_of_help_and_a_place_in_the_readme(call, drafthand):
    assert call.usage in help_page() and call.says in help_page()
    assert f"`drafthand {call.name}" in PAGE
    status, output, errors = drafthand(call.name, "--help")
    assert (status, errors) == (0, "")
    assert call.says in output
    for names, settings in call.arguments:
        assert settings["help"] in " ".join(output.split())
        assert names[-1] in output or settings.get("metavar", "") in output or str(settings["choices"][0]) in output


@pytest.mark.parametrize("names", [names for call in CALLS.values() for names, _ in call.arguments
                                   if names[-1].startswith("--")], ids=lambda names: names[-1])
def test_every_option_stands_on_a_page(names):
    developers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert names[-1] in PAGE + developers


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command.name)
def test_every_slash_command_stands_in_the_readme(command):
    assert f"| `{command.usage}` | `{command.alias}` | {command.says} |" in PAGE


def test_help_and_version(drafthand):
    for word in ("--help", "-h"):
        assert drafthand(word) == (0, help_page() + "\n", "")
    assert re.fullmatch(r"drafthand \d+\.\d+\.\d+\n", drafthand("--version")[1])


@pytest.mark.parametrize("session", sessions(PAGE), ids=lambda session: session.splitlines()[0][:40])
def test_a_session_in_the_readme_comes_out_as_printed(session):
    assert played(session) == session, "write it anew with: python tests/terminal/readme.py"


def test_the_readme_sets_up_in_one_line_each():
    answer, tests = set_up_lines(PAGE)
    assert "\n" not in answer and "drafthand ask" in answer
    assert "\n" not in tests and tests.endswith("pytest")


@pytest.mark.parametrize("word", [*VERBS, *KINDS])
def test_every_word_of_the_notation_stands_on_its_page(word):
    assert f"`{word}`" in NOTATION


def test_every_demo_is_listed_where_the_newcomer_begins():
    for page in (ROOT / "transcripts_demo").glob("*.md"):
        assert page.name == "README.md" or f"]({page.name})" in NOTATION


def test_links_lead_somewhere():
    for base, page in ((ROOT, PAGE), (ROOT / "transcripts_demo", NOTATION)):
        for target in re.findall(r"\]\(([^)#]+)\)", page):
            assert (base / target).exists(), target
