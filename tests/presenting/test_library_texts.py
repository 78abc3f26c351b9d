import pytest

from teardowns.presenting.library_texts import linked, moment, value_text


@pytest.mark.parametrize(("code", "value", "text"), [
    ("controller_power_wide", 12.0, "12\u202fW"), ("core_effective_area", 23.3e-6, "23.3\u202fmm²"),
    ("primary_decodes_requests", 1.0, "yes"), ("primary_decodes_requests", 0.0, "no"),
    ("controller_power_wide", None, "unknown"), ("a_code_of_later", 3.0, "3")])
def test_a_value_is_printed_with_its_unit(code, value, text):
    assert value_text(code, value) == text


def test_a_named_row_leads_to_that_row_and_all_else_is_text():
    assert linked("See 12/component/q1 & <b>.\nSo.\n\nEnd.") == (
        '<p>See <a href="/units/12/#component-q1">12/component/q1</a> &amp; &lt;b&gt;.<br>So.</p>'
        "<p>End.</p>")


def test_nothing_is_nothing():
    assert linked(" \n\n ") == "" and moment(None) == ""
