"""Raw lines of `pipe`: what is taken, and the sentence for everything that is not."""

import pytest

from advisor.errors import LineRefused
from advisor.terminal.lines import (
    LONGEST_LINE,
    CookerLine,
    DoneLine,
    ReadingLine,
    ResetLine,
    SayLine,
    read_line,
)


@pytest.mark.parametrize(("raw", "line"), [
    (b'{"say": "dome 310", "at_min": 12.5}\n', SayLine(say="dome 310", at_min=12.5)),
    (b'{"reading": {"dome_f": 310}, "at_min": 20}', ReadingLine(reading={"dome_f": 310}, at_min=20)),
    (b'{"done": [1, 2], "at_min": 21}\r\n', DoneLine(done=[1, 2], at_min=21)),
    (b'{"cooker": "second"}', CookerLine(cooker="second")),
    (b'{"reset": true}', ResetLine(reset=True)),
    ('\ufeff{"say": "zwölf"}'.encode(), SayLine(say="zwölf")),
])
def test_a_line_of_the_contract_is_taken(raw, line):
    assert read_line(raw) == line


@pytest.mark.parametrize(("raw", "says"), [
    (b"\n", "the line is empty"),
    (b"\xff\xfe\x00\x01", "byte 1 is no UTF-8"),
    (b'{"say": "x"', "this is no JSON"),
    (b"[1, 2]", "the line is a list, not an object"),
    (b"3", "the line is a number"),
    (b"null", "the line is null"),
    (b'"dome 310"', "the line is a text"),
    (b"{}", "the line holds none of"),
    (b'{"saay": "x"}', "did you mean say?"),
    (b'{"say": "x", "atmin": 3}', "did you mean at_min?"),
    (b'{"say": "x", "done": [1]}', "holds both say and done"),
    (b'{"say": 3}', "say was given as 3"),
    (b'{"say": "\\ud800"}', "half a character"),
    (b'{"reading": {}}', "an object of situation keys"),
    (b'{"reading": [310]}', "an object of situation keys"),
    (b'{"reading": {"dome_f": NaN}}', "NaN stands where a number should"),
    (b'{"reading": {"dome_f": -Infinity}}', "-Infinity stands"),
    (b'{"reading": {"dome_f": 1e999}}', "beyond reckoning"),
    (b'{"reading": {"dome_f": ' + b"9" * 5000 + b"}}", "thousands of digits"),
    (b'{"done": [true]}', "a list of step numbers"),
    (b'{"done": "1"}', "a list of step numbers"),
    (b'{"done": []}', "a list of step numbers"),
    (b'{"cooker": "  "}', "a name of 1 to"),
    (b'{"reset": false}', "there belongs true"),
    (b'{"say": "x", "at_min": -1}', "a number of minutes"),
    (b'{"say": "x", "at_min": true}', "a number of minutes"),
    (b'{"say": "x", "at_min": "12"}', "a number of minutes"),
    (b"[" * 100_000, "nested too deep"),
    (b'{"say": "' + b"a" * LONGEST_LINE + b'"}', "longer than"),
])
def test_any_other_line_is_refused_in_one_sentence(raw, says):
    with pytest.raises(LineRefused) as refusal:
        read_line(raw)
    assert says in str(refusal.value)
    assert "\n" not in str(refusal.value)
