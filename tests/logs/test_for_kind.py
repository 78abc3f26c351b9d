from teardowns.logs.detect import detect_layout
from teardowns.logs.for_kind import NODES, fitted

SCOPE = b"Second,Volt\n" + b"".join(b"%d.0E-08,%d.5\n" % (n, 300 + n % 7) for n in range(40))
NAMED = SCOPE.replace(b"Volt", b"Voltage (V)")


def test_a_capture_asks_where_the_probe_was():
    for text in (SCOPE, NAMED):
        found = fitted(detect_layout(text), "waveform", {})
        question, = found.questions
        assert [choice.value for choice in question.choices] == list(NODES)
        assert found.layout.columns[1].role == "switch_voltage"


def test_an_answer_settles_it():
    answers = {"role:1": "winding_voltage"}
    found = fitted(detect_layout(SCOPE, answers=answers), "waveform", answers)
    assert (found.questions, found.layout.columns[1].role) == ((), "winding_voltage")


def test_an_answer_of_output_voltage_is_an_answer():
    answers = {"role:1": "output_voltage"}
    assert fitted(detect_layout(SCOPE, answers=answers), "waveform", answers).questions == ()


def test_other_kinds_are_left_as_they_are():
    proposal = detect_layout(NAMED)
    assert fitted(proposal, "load_sweep", {}) is proposal
