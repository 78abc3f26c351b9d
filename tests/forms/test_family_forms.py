import pytest

from teardowns.forms.family_forms import FamilyForm, MemberForm


def test_a_name_is_kept_without_stray_spaces():
    form = FamilyForm({"name": "  Board   HB-12 "})
    assert form.is_valid() and form.said()["name"] == "Board HB-12"


@pytest.mark.parametrize("unit", ["", "twelve", "0", "-3"])
def test_a_unit_is_given_by_its_number(unit):
    form = MemberForm({"unit": unit, "why": "The same board number."})
    assert not form.is_valid() and list(form.errors) == ["unit"]
