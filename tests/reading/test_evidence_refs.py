import pytest

from teardowns.reading.evidence_refs import EvidenceRef, evidence_refs


def test_rows_are_found_in_a_sentence_once_each():
    text = "See 12/component/q1 (and 7/photo/solder-side), again 12/component/q1."
    assert evidence_refs(text) == [
        EvidenceRef(12, "component", "q1"), EvidenceRef(7, "photo", "solder-side")]


@pytest.mark.parametrize("text", ["", "12/component", "12/unit/q1", "1/2/component/q1",
                                  "a12/claim/x", "component/q1", "1234567890/claim/x"])
def test_what_only_looks_like_a_row_is_text(text):
    assert evidence_refs(text) == []


def test_a_ref_is_written_as_it_was_read():
    assert evidence_refs("3/claim/out-5v")[0].text == "3/claim/out-5v"
