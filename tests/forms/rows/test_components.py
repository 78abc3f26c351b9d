import pytest

from teardowns.models import Component
from tests.forms.sent import checked, messages, only_change

pytestmark = pytest.mark.django_db


def part(unit, role, slug="mains-side", **typed):
    return checked(unit, slug, {f"{role}-0-{name}": text for name, text in typed.items()})


def test_a_marking_fills_the_fields_that_are_blank(unit):
    stored = only_change(part(unit, "bulk-capacitor", marking="15µF 400V 105°C"))
    assert stored["nominal"] == pytest.approx(15e-6)
    assert (stored["rated_voltage"], stored["count"], stored["state"]) == (400.0, 1, "recorded")


def test_what_a_person_writes_wins_over_the_marking(unit):
    stored = only_change(part(unit, "bulk-capacitor", marking="15µF 400V", nominal="10"))
    assert stored["nominal"] == pytest.approx(10e-6)


def test_an_ambiguous_marking_asks_and_fills_nothing(unit):
    form = part(unit, "bulk-capacitor", marking="471 25V")
    assert only_change(form)["nominal"] is None
    asked = form.row_sets[0].forms[0].decoded.questions[0]
    assert "471" in asked and "470" in asked            # µF as printed, or pF as a code: 47 × 10¹
    assert "write the value that is right" in asked


def test_a_field_that_was_cleared_is_not_filled_again(unit, alice):
    Component.objects.create(unit=unit, key="b", role="bulk_capacitor", marking="15µF 400V",
                             how="read_off", author=alice)
    form = checked(unit, "mains-side", {"bulk-capacitor-0-count": "2"})
    assert only_change(form)["nominal"] is None


def test_a_value_with_a_tolerance_states_both(unit):
    stored = only_change(part(unit, "bulk-capacitor", nominal="15 µF ± 20 %"))
    assert stored["tolerance"] == pytest.approx(0.2)


def test_a_safety_class_is_read_from_the_marking(unit):
    # IEC 60384-14: X2 across the mains; 104 is 10 × 10⁴ pF = 100 nF, K is ± 10 %.
    stored = only_change(part(unit, "x-capacitor", marking="104K 275V X2"))
    assert stored["safety_class"] == "X2"
    assert stored["nominal"] == pytest.approx(100e-9)


def test_looked_and_not_found_stands_without_a_marking(unit):
    assert only_change(part(unit, "fuse", state="not_found"))["state"] == "not_found"


def test_not_found_beside_a_marking_is_refused(unit):
    assert "“Looked, not found”" in messages(part(unit, "fuse", state="not_found", marking="T1A"))


def test_not_readable_beside_a_marking_says_how_to_write_it(unit):
    said = messages(part(unit, "fuse", state="not_readable", marking="T1A"))
    assert "write ? for the letters" in said


def test_a_published_power_needs_its_source_and_its_type(unit):
    said = messages(part(unit, "primary-controller", marking="PZ6318A",
                         controller_power_wide="12 W"))
    assert "needs its source" in said and "the data sheet is about" in said


def test_a_cited_power_becomes_a_limit_of_the_part(unit):
    form = part(unit, "primary-controller", marking="PZ6318A", part_marking="PZ6318",
                controller_power_wide="12 W", citation="PZ6318 sheet, rev. 2, table 1")
    cited = only_change(form)["part"]
    assert cited.limits == (("controller_power_wide", 12.0),)
    assert cited.citation == "PZ6318 sheet, rev. 2, table 1"
