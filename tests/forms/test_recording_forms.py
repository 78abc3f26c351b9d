import pytest

from teardowns.forms.recording_forms import ReceiveForm, SpanForm, answers_in


def test_a_protocol_capture_has_a_page_of_its_own():
    assert "protocol" not in dict(ReceiveForm().fields["kind"].choices)


def test_only_ports_of_the_unit_can_be_chosen():
    typed = {"kind": "load_sweep", "port": "c1"}
    assert ReceiveForm(typed, ports=[("c1", "C1")]).is_valid()
    assert not ReceiveForm(typed, ports=[("a1", "A1")]).is_valid()


def test_a_span_is_two_times_in_order():
    form = SpanForm({"name": "sustained_power", "start": "10 min", "end": "20 min"})
    assert form.is_valid() and form.span() == (600.0, 1200.0)
    assert "later" in SpanForm({"name": "x", "start": "20 s", "end": "10 s"}).errors["end"][0]


@pytest.mark.parametrize("ends", [{}, {"start": "1 s"}, {"end": "1 s"}])
def test_without_both_ends_the_reader_looks_for_itself(ends):
    form = SpanForm({"name": "x"} | ends)
    assert form.is_valid() and form.span() is None


def test_answers_are_what_was_chosen():
    assert answers_in({"answer-decimal": ",", "answer-date_order": "", "encoding": "utf-8"}) == {
        "decimal": ","}
