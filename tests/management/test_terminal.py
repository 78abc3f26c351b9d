"""The record on the terminal: complete, narrow, and not to be steered by what a file says."""
import pytest

from teardowns.engine.safety_words import DEFERRAL
from teardowns.exchange.document import read_document
from teardowns.exchange.verdict import assumptions, verdicts
from teardowns.management.terminal import WIDTH, plain, print_verdict
from teardowns.management.terminal_figures import columns_of
from tests.exchange.small import small
from tests.exchange.whole_document import WHOLE


def printed(document):
    return print_verdict(document, verdicts([document])[0], assumptions(document))


def words(text):
    return " ".join(text.split())


@pytest.fixture(scope="module")
def whole():
    return printed(read_document(WHOLE))


@pytest.mark.parametrize("name", ["Claims", "Capability", "Weights", "Checks", "Feedback",
                                  "Hazards", "Open", "Assumed", "Basis"])
def test_every_section_is_there(whole, name):
    assert any(line.startswith(name) for line in whole.splitlines())


def test_no_line_is_wider_than_a_terminal(whole):
    for text in (whole, printed(small())):
        assert all(columns_of(line) <= WIDTH for line in text.splitlines())


def test_it_defers(whole):
    assert DEFERRAL in words(whole)


def test_of_a_unit_without_evidence_it_says_that_nothing_was_recorded_of_its_insulation():
    said = words(printed(small()))
    assert "whether its insulation keeps them apart, this page cannot tell" in said


def test_capability_comes_with_its_interval_at_both_mains_ends(whole):
    lines = [line for line in whole.splitlines() if "median, 90 % interval" in line]
    assert ["100 V 50 Hz" in line or "240 V 50 Hz" in line for line in lines] == [True, True]


def test_without_evidence_it_says_cannot_tell_and_assumes_no_plate():
    text = words(printed(small()))
    assert "220 V 50 Hz cannot tell: no line of evidence" in text
    assert "no rated input was read" in text
    assert "No claim in volts, amperes or watts was recorded." in text


@pytest.mark.parametrize(("state", "said"), [
    ("not_looked", "not looked at"), ("not_found", "looked for and not found"),
    ("not_readable", "not readable")])
def test_a_rating_that_could_not_be_read_is_not_passed_over(state, said):
    text = printed(small(claims=[{"kind": "output", "state": state}]))
    assert f"1 printed rating of the output: {said}" in text


def test_words_of_a_document_cannot_steer_the_terminal():
    assert plain("9V\x1b[2J\n 2A\u202e") == "9V\ufffd[2J 2A\ufffd"
    claim = {"kind": "output", "voltage_low": 5.0, "text": "5V\x1b]0;x\x07"}
    document = small(claims=[claim], unit={"title": "a\x1b[31mb"})
    assert "\x1b" not in printed(document)
    assert "\x07" not in printed(document)
