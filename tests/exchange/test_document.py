"""Reading and writing: one document, one text; what is wrong is named with its path and remedy."""
import json

import pytest
from hypothesis import given, settings

from teardowns.exchange.document import (
    FORM,
    DocumentError,
    counts,
    read_document,
    write_document,
)
from tests.exchange.strategies import documents
from tests.exchange.whole_document import WHOLE, whole_document

LEAST = {"form": FORM, "unit": {"title": "Lamplit L5"}}


def refusal(**lists):
    with pytest.raises(DocumentError) as refused:
        read_document(LEAST | lists)
    return str(refused.value)


def test_the_least_document_is_filled_with_every_default():
    document = read_document(LEAST)
    assert document["measurements"] == document["photos"] == []
    assert document["unit"]["channel"] == "unknown"
    assert "price" not in document["unit"]


def test_a_row_gets_its_defaults_and_its_unknown_facts_stay_out():
    row = {"key": "mass", "quantity": "mass_total", "value": 1}
    read = read_document(LEAST | {"measurements": [row]})["measurements"][0]
    assert read == row | {"state": "recorded", "how": "measured", "note": "", "instrument": "",
                          "review_state": "open", "uncertainty_kind": "", "bound_kind": "",
                          "all_ports": False}
    assert isinstance(read["value"], float)


def test_writing_leaves_defaults_out():
    assert json.loads(write_document(read_document(LEAST))) == LEAST


def test_the_whole_document_is_written_as_it_was_read():
    expected = whole_document()
    for row in (row for value in expected.values() if isinstance(value, list) for row in value):
        if row.get("state") == "recorded":
            del row["state"]                       # the default
    assert json.loads(write_document(read_document(WHOLE))) == expected


@settings(max_examples=100, deadline=None)
@given(drawn=documents())
def test_a_written_document_reads_back_the_same(drawn):
    document = read_document(drawn)
    text = write_document(document)
    for source in (text, text.encode(), document):
        assert read_document(source) == document
    assert write_document(read_document(text)) == text


def test_order_of_keys_layers_parts_and_limits_does_not_matter():
    document = whole_document()
    turned = {key: document[key] for key in reversed(document)}
    turned["stack"] = document["stack"][::-1]
    assert write_document(read_document(turned)) == write_document(read_document(document))


def test_reading_leaves_what_it_was_given_alone():
    document = whole_document()
    read_document(document)
    assert document == WHOLE


def test_all_problems_come_at_once_each_with_its_path():
    text = refusal(measurements=[{"key": "A b", "quantity": "mas_total", "value": "50 g"}],
                   unit={"titel": "x"})
    assert 'unit.titel: no such key in the form; did you mean "title"?' in text
    assert "unit.title: is missing; add it" in text
    assert 'measurements[0].quantity: is "mas_total", which is no choice; did you mean' in text
    assert 'measurements[0].value: is "50 g", not a number' in text
    assert "measurements[0].key: is \"A b\"; write it so:" in text


def test_of_many_problems_the_first_are_shown():
    with pytest.raises(DocumentError) as refused:
        read_document(LEAST | {f"extra{n}": n for n in range(1500)})
    assert len(refused.value.problems) == 51
    assert refused.value.problems[-1] == "and more"


def test_null_is_no_way_to_say_unknown():
    assert "unit.price: is null, not a number; leave the key out when it is not known" in refusal(
        unit={"title": "x", "price": None})


def test_another_form_is_refused():
    with pytest.raises(DocumentError, match='form: is not "underplate-unit/1"'):
        read_document(LEAST | {"form": "underplate-unit/2"})


def test_something_else_than_a_document_is_refused():
    for text in ("[]", "null", "3", '"x"'):
        with pytest.raises(DocumentError, match="not an object in braces"):
            read_document(text)


def test_disputed_rows_never_count_and_confirmed_ones_always():
    states = ("open", "confirmed", "disputed", "remeasured")
    assert [counts({"review_state": s}) for s in states] == [True, True, False, True]
    assert [counts({"review_state": s}, True) for s in states] == [False, True, False, True]
