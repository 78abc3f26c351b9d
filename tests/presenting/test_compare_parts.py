"""Parts by role: the same, another, and the three ways of not knowing."""
import pytest

from teardowns.presenting.compare_parts import compared_parts

from .compared import columns, compared, component


def rows(*units):
    """A list of components for each unit."""
    return compared_parts(columns(*(compared(pk=pk, component=list(found))
                                    for pk, found in enumerate(units, start=1))))


def one_row(*units):
    row, = rows(*units)
    return row


def bulk(marking, **fields):
    return component("bulk_capacitor", marking, **fields)


def test_a_role_that_nobody_recorded_has_no_row():
    assert [row.name for row in rows([bulk("22µF 400V")], [])] == ["Bulk capacitor"]


def test_markings_are_the_same_when_only_spaces_hyphens_and_case_differ():
    row = one_row([bulk("PZ 63-18")], [bulk("pz6318")])
    assert row.remark == "= same marking"
    assert "same marking as B" in row.cells[0].text and "same marking as A" in row.cells[1].text


def test_another_marking_is_said_to_be_another():
    row = one_row([bulk("22µF 400V")], [bulk("33µF 400V")])
    assert row.remark == "≠ markings differ"
    assert "another marking than B" in row.cells[0].text


def test_one_marking_with_another_value_is_not_called_the_same():
    row = one_row([bulk("CX", nominal=1e-5)], [bulk("CX", nominal=2e-5)])
    assert "same marking, another value than B" in row.cells[0].text


def test_the_cell_that_differs_from_most_is_marked():
    row = one_row([bulk("22µF")], [bulk("22µF")], [bulk("33µF")])
    assert [cell.differs for cell in row.cells] == [False, False, True]


def test_without_a_majority_no_cell_is_marked():
    row = one_row([bulk("22µF")], [bulk("33µF")], [bulk("47µF")])
    assert not any(cell.differs for cell in row.cells)


@pytest.mark.parametrize(("state", "words"), [
    ("not_looked", "Not looked"), ("not_found", "Looked, not found"),
    ("not_readable", "Not readable")])
def test_the_ways_of_not_knowing_stay_different(state, words):
    row = one_row([bulk("22µF")], [bulk("", state=state)], [])
    assert words in row.cells[1].text and "another" not in row.cells[1].text
    assert "nothing recorded" in row.cells[2].text
    assert row.remark == ""


def test_several_parts_share_a_marking_in_part():
    row = one_row([bulk("22µF"), bulk("10µF", key="b2")], [bulk("22µF")])
    assert "partly the same as B" in row.cells[0].text


def test_what_nobody_confirmed_is_shown_and_not_compared():
    row = one_row([bulk("22µF", review_state="open")], [bulk("22µF")])
    assert "not confirmed, and not compared" in row.cells[0].text
    assert "same marking" not in row.cells[0].text


def test_a_marking_leads_to_its_evidence_and_is_escaped():
    row = one_row([bulk("<b>", key="c1")], [])
    assert 'href="/units/1/#component-c1"' in row.cells[0].text
    assert "“&lt;b&gt;”" in row.cells[0].text
