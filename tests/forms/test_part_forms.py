"""Proposals as people type them."""
import pytest

from teardowns.forms.part_forms import (
    ChangedLimitForm,
    DecisionForm,
    LimitForm,
    PartForm,
    SupersededForm,
)
from teardowns.services.library_quantities import CODES
from tests.library import POWER, SOURCE, listed

LIMIT = {"quantity": POWER, "value": "12", "why": "Its sheet.", **SOURCE}
PART = {"marking": " PZ  6318 ", "why": "Seen twice."}


def test_a_value_is_read_in_the_unit_of_its_quantity():
    form = LimitForm(LIMIT | {"quantity": "switch_voltage_rating", "value": "0.65 kV"})
    assert form.is_valid() and form.said()["value"] == pytest.approx(650.0)


@pytest.mark.parametrize(("changed", "field", "words"), [
    ({"value": ""}, "value", "Write the value"), ({"value": "12 ± 1"}, "value", "keeps one value"),
    ({"value": "12 V"}, "value", ""), ({"value": "-3"}, "value", ""),
    ({"quantity": ""}, "quantity", "Choose the quantity"),
    ({"quantity": "mass_total"}, "quantity", ""), ({"document": ""}, "document", "its source"),
    ({"why": " "}, "why", "Say why"),
    ({"quantity": "primary_decodes_requests", "value": "0.5"}, "value", "1 for yes")])
def test_bad_input_is_told_at_its_field(changed, field, words):
    form = LimitForm(LIMIT | changed)
    assert not form.is_valid() and field in form.errors
    assert words in " ".join(form.errors[field])


def test_every_quantity_on_offer_can_be_typed_with_its_unit():
    labels = dict(LimitForm().fields["quantity"].choices)
    assert set(labels) - {""} == set(CODES) and labels[POWER].endswith("(W)")


def test_a_changed_limit_keeps_its_quantity():
    form = ChangedLimitForm({"value": "13 W", "why": "Rev. 3.", **SOURCE}, quantity=POWER)
    assert form.is_valid() and form.said()["value"] == 13.0 and "quantity" not in form.said()


def test_a_part_may_come_without_a_limit():
    form = PartForm(PART)
    assert form.is_valid() and form.said()["marking"] == "PZ 6318" and form.said()["value"] is None


def test_a_value_of_nothing_is_asked_about():
    form = PartForm(PART | {"value": "12 W"})
    assert not form.is_valid() and "value of what" in form.errors["quantity"][0]


@pytest.mark.django_db
def test_a_successor_is_named_by_its_marking(mona):
    part = listed(mona, "PZ6319", None)
    form = SupersededForm({"successor": "pz6319", "why": "Notice."})
    assert form.is_valid() and form.said()["successor"] == part
    assert not SupersededForm({"successor": "PZ7", "why": "Notice."}).is_valid()
    assert SupersededForm({"successor": "", "why": "Notice."}).is_valid()


def test_what_is_sent_next_answers_to_what_was_shown():
    form = DecisionForm({"reason": "So.", "seen": "1", "part_seen": "4"})
    form.see_now(2, part_seen=None)
    assert (form["seen"].value(), form["part_seen"].value(), form["reason"].value()) == (
        "2", "", "So.")
