import pytest

from teardowns.forms.decoded import decode_for_role
from teardowns.models import Component, Part, PartLimit, Port
from tests.forms.sent import checked, messages, only_change
from tests.library import contain, listed

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


@pytest.mark.parametrize("role, marking, written, said", [
    ("fuse", "T2AL250V", {"rated_current": 2000.0},
     ["“Rated current” says 2000 A, the marking 2 A"]),
    ("fuse", "T2AL250V", {"rated_current": 2.0, "rated_voltage": 250.0}, []),
    ("fuse", "T2AL250V", {}, []),                           # a blank contradicts nothing
    ("x_capacitor", "0.1uF K X2 275~", {"nominal": 104e-9},
     ["“Value of one” says 104 nF, the marking 100 nF"]),
    ("bulk_capacitor", "15µF 400V", {"nominal": 15.1e-6}, []),          # within 1 %
])
def test_a_number_that_the_marking_contradicts_is_shown_beside_it(
        unit, alice, role, marking, written, said):
    row = Component.objects.create(unit=unit, key="p", role=role, marking=marking, how="read_off",
                                   author=alice, **written)
    form = next(form for rows in checked(unit, "mains-side", {}).row_sets for form in rows.forms
                if form.row == row)
    assert [text.partition(":")[0] for text in form.contradictions] == said


def test_the_current_of_a_fuse_is_said_once():
    assert decode_for_role("fuse", "T2AL250V").text.count("2.00\u202fA") == 1


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


def test_ratings_and_sizes_of_a_part_are_kept_in_si(unit):
    stored = only_change(part(unit, "output-capacitor", "output-side", nominal="680",
                              ripple_current="1.2 A", diameter="8 mm", length="12"))
    assert stored["ripple_current"] == 1.2
    assert (stored["diameter"], stored["length"]) == (pytest.approx(8e-3), pytest.approx(12e-3))
    switch = only_change(part(unit, "output-rectifier", "output-side", on_resistance="7.5"))
    assert switch["on_resistance"] == pytest.approx(7.5e-3)             # a bare number is in mΩ


def test_a_resistor_s_rated_power_is_read_from_its_marking(unit):
    assert only_change(part(unit, "fusible-resistor", marking="10R 5% 1W"))["rated_power"] == 1.0


def test_a_part_names_the_port_that_it_serves_alone(unit, alice):
    Port.objects.create(unit=unit, key="c1", label="C1", author=alice)
    stored = only_change(part(unit, "output-capacitor", "output-side", marking="680µF 10V",
                              port="c1"))
    assert stored["port"] == "c1"


def test_a_stored_part_sent_back_unchanged_stays_untouched(unit, alice):
    port = Port.objects.create(unit=unit, key="c1", label="C1", author=alice)
    Component.objects.create(unit=unit, key="o", role="output_capacitor", nominal=680e-6, port=port,
                             diameter=8e-3, length=12e-3, ripple_current=1.2, author=alice)
    assert checked(unit, "output-side", {}).row_changes() == []


@pytest.mark.parametrize("typed, remedy", [
    ({"maximum_duty": "75"}, "outside what can exist here, 0.05 to 0.99"),
    ({"controller_supply_low": "28 V", "controller_supply_high": "8 V"}, "swap the two"),
])
def test_a_published_limit_that_cannot_be_is_named(unit, typed, remedy):
    typed |= {"marking": "PZ6318A", "part_marking": "PZ6318", "citation": "PZ6318 sheet, table 1"}
    assert remedy in messages(part(unit, "primary-controller", **typed))


@pytest.fixture
def controller(unit, alice):
    """A stored controller whose two published limits stand on two pages."""
    library = Part.objects.create(marking="PZ6318", curator=alice)
    for code, value, table in (("controller_power_wide", 12.0, 1), ("maximum_duty", 0.7, 2)):
        PartLimit.objects.create(part=library, quantity=code, value=value,
                                 citation=f"PZ6318 sheet, table {table}")
    return Component.objects.create(unit=unit, key="u1", role="primary_controller",
                                    marking="PZ6318A", part=library, author=alice)


def test_limits_from_two_pages_keep_their_pages_when_sent_back(unit, controller):
    assert checked(unit, "mains-side", {}).row_changes() == []


def test_a_limit_that_is_new_is_cited_alone(unit, controller):
    cited = only_change(part(unit, "primary-controller", current_sense_threshold="0.8"))["part"]
    assert cited.limits == (("current_sense_threshold", 0.8),)


def core_hint(unit, marking):
    form = part(unit, "core", "transformer", marking=marking)
    row = next(row for rows in form.row_sets if rows.item.prefix == "core" for row in rows.forms)
    return row.decoded, form


def test_a_core_s_name_is_looked_up_in_the_core_library(unit):
    decoded, form = core_hint(unit, "EFD15/8/5")
    # 15 mm²: EPCOS B66413, EFD 15/8/5.
    assert decoded.text == "EFD 15/8/5, effective area 15.0\u202fmm²"
    assert only_change(form)["marking"] == "EFD15/8/5"


@pytest.mark.parametrize("marking, question", [
    ("EE17", "measure width, height, depth"), ("no print", "write family and size")])
def test_a_core_that_the_library_does_not_hold_says_what_to_do(unit, marking, question):
    assert question in core_hint(unit, marking)[0].questions[0]


def test_a_new_limit_s_source_does_not_become_that_of_the_others(unit, controller):
    cited = only_change(part(unit, "primary-controller", current_sense_threshold="0.8",
                             citation="PZ6318 sheet, table 3"))["part"]
    assert cited.limits == (("current_sense_threshold", 0.8),)
    assert cited.citation == "PZ6318 sheet, table 3"


def test_a_source_that_is_corrected_alone_is_corrected_for_all(unit, controller):
    cited = only_change(part(unit, "primary-controller", citation="PZ6318 sheet, rev. 3"))["part"]
    assert [code for code, _ in cited.limits] == ["controller_power_wide", "maximum_duty"]


def test_a_type_that_the_library_lacks_may_be_proposed(client, alice, unit):
    Component.objects.create(unit=unit, key="u1", role="primary_controller", marking="KR905 2412",
                             author=alice)
    client.force_login(alice)
    page = client.get(f"/bench/{unit.pk}/mains-side/").content.decode()
    assert "/parts/propose/?marking=KR905%202412" in page


def test_a_type_of_the_library_and_a_value_s_marking_are_not(client, alice, mona, unit):
    contain(unit, listed(mona))
    Component.objects.create(unit=unit, key="b", role="bulk_capacitor", marking="15µF 400V",
                             author=alice)
    client.force_login(alice)
    assert "/parts/propose/" not in client.get(f"/bench/{unit.pk}/mains-side/").content.decode()
