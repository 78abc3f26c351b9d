"""Evidence of one's own open sheet: rows in the exchange form, sections as they are typed."""
import pytest

from teardowns.forms.sections import SECTIONS
from teardowns.models import Claim, Component, Measurement, Part
from teardowns.services.export_unit import unit_document
from teardowns.services.save_section import StaleRows
from tests.api.speaking import Program, faults_of
from tests.library import contain, listed

pytestmark = pytest.mark.django_db
MASS = {"quantity": "mass_total", "value": 0.061, "how": "measured"}
ROW = "/bench/{unit}/evidence/{list}/{key}"


@pytest.fixture
def program(alice):
    return Program(alice)


@pytest.fixture
def rows(unit):
    return f"/bench/{unit.pk}/evidence"


def test_a_row_is_written_read_and_changed(program, rows, unit):
    made = program.put(f"{rows}/measurements/mass", MASS)
    assert made.status_code == 200 and faults_of(made, ROW, "put") == []
    assert Measurement.objects.get(unit=unit).value == 0.061
    read = program.get(f"{rows}/measurements/mass")
    assert read["ETag"] == made["ETag"] and read.json()["version"] == 1
    changed = program.patch(f"{rows}/measurements/mass", {"value": 0.06}, If_Match=read["ETag"])
    assert (changed.status_code, changed.json()["version"]) == (200, 2)
    assert changed.json()["row"]["how"] == "measured"


def test_null_takes_a_key_away_and_put_replaces_the_whole_row(program, rows, unit):
    one = MASS | {"uncertainty": 0.001, "uncertainty_kind": "standard", "note": "Dry."}
    made = program.put(f"{rows}/measurements/mass", one)
    merged = program.patch(f"{rows}/measurements/mass", {
        "uncertainty": None, "uncertainty_kind": None}, If_Match=made["ETag"])
    row = Measurement.objects.get(unit=unit)
    assert (row.uncertainty, row.uncertainty_kind, row.note) == (None, "", "Dry.")
    program.put(f"{rows}/measurements/mass", MASS, If_Match=merged["ETag"])
    assert Measurement.objects.get(unit=unit).note == ""


def test_a_change_without_its_tag_is_not_made(program, rows, unit):
    program.put(f"{rows}/measurements/mass", MASS)
    for answer in (program.put(f"{rows}/measurements/mass", MASS | {"value": 0.05}),
                   program.patch(f"{rows}/measurements/mass", {"value": 0.05}),
                   program.delete(f"{rows}/measurements/mass")):
        assert answer.status_code == 428
    assert Measurement.objects.get(unit=unit).value == 0.061


def test_a_stale_change_brings_both_texts_and_the_tag_for_another_try(program, rows, unit):
    old = program.put(f"{rows}/measurements/mass", MASS)["ETag"]
    program.patch(f"{rows}/measurements/mass", {"value": 0.06}, If_Match=old)
    answer = program.put(f"{rows}/measurements/mass", MASS | {"value": 0.07}, If_Match=old)
    said = answer.json()
    assert answer.status_code == 412
    assert (said["current"]["row"]["value"], said["yours"]["value"]) == (0.06, 0.07)
    again = program.put(f"{rows}/measurements/mass", MASS | {"value": 0.07},
                        If_Match=said["etag"])
    assert again.status_code == 200 and Measurement.objects.get(unit=unit).value == 0.07


@pytest.mark.parametrize("tag", ['"other"', "no tag", ""])
def test_a_tag_of_another_state_matches_nothing(program, rows, tag):
    program.put(f"{rows}/measurements/mass", MASS)
    assert program.delete(f"{rows}/measurements/mass", If_Match=tag).status_code == 412


def test_if_none_match_writes_only_what_is_not_there(program, rows):
    first = program.put(f"{rows}/measurements/mass", MASS, If_None_Match="*")
    again = program.put(f"{rows}/measurements/mass", MASS, If_None_Match="*")
    assert (first.status_code, again.status_code) == (200, 412)


def test_a_row_is_taken_away(program, rows, unit):
    tag = program.put(f"{rows}/measurements/mass", MASS)["ETag"]
    assert program.delete(f"{rows}/measurements/mass", If_Match=tag).json()["changed"] == 1
    assert not Measurement.objects.filter(unit=unit).exists()
    assert program.get(f"{rows}/measurements/mass").status_code == 404


def test_a_removal_that_somebody_was_faster_than_says_to_read_it_again(program, rows, monkeypatch):
    tag = program.put(f"{rows}/measurements/mass", MASS)["ETag"]

    def overtaken(*change):
        raise StaleRows
    monkeypatch.setattr("teardowns.api.views.bench_rows.save_section", overtaken)
    answer = program.delete(f"{rows}/measurements/mass", If_Match=tag)
    assert answer.status_code == 412 and "read it again" in answer.json()["detail"]


@pytest.mark.parametrize("row, pointer, words", [
    ({"quantity": "mass_total"}, "/value", "missing"),
    ({"quantity": "mass", "value": 1}, "/quantity", "mass_total"),
    (MASS | {"value": 900.0}, "/value", "between"),
    (MASS | {"value": "61 g"}, "/value", "number"),
    (MASS | {"weight": 1}, "/weight", "no such key"),
    (MASS | {"photo": "none"}, "/photo", "photos"),
    (MASS | {"key": "other"}, "/key", "mass"),
    (MASS | {"uncertainty": 0.1}, "/uncertainty", "together"),
    (MASS | {"note": None}, "/note", "leave the key out"),
    ({"quantity": "mass_total", "value": 1e400}, "", "")])
def test_what_is_wrong_with_a_row_is_pointed_at_in_words(program, rows, row, pointer, words):
    answer = program.put(f"{rows}/measurements/mass", row)
    assert answer.status_code in (400, 422), answer.content
    assert any(each.get("pointer") == pointer and words in each["detail"]
               for each in answer.json()["errors"]) or not words, answer.json()
    assert not Measurement.objects.exists()


def test_rows_that_name_others_find_them(program, rows, unit):
    program.put(f"{rows}/ports/c1", {"label": "C1", "connector": "usb_c"})
    answer = program.put(f"{rows}/measurements/held", {
        "quantity": "sustained_power", "value": 20.0, "port": "c1", "duration": 1800.0})
    assert answer.status_code == 200, answer.content
    assert Measurement.objects.get(key="held").port.label == "C1"
    assert program.get(f"{rows}/measurements/held").json()["row"]["port"] == "c1"


def test_a_component_names_a_part_of_the_library(program, rows, mona):
    part = listed(mona)
    answer = program.put(f"{rows}/components/ctrl", {
        "role": "primary_controller", "marking": part.marking, "part": part.marking})
    assert answer.status_code == 200, answer.content
    assert Component.objects.get().part == part


def test_a_part_that_nobody_listed_is_pointed_at_and_not_made(program, rows):
    answer = program.put(f"{rows}/components/ctrl", {
        "role": "primary_controller", "marking": "QQ1", "part": "QQ1"})
    assert answer.json()["errors"][0]["pointer"] == "/part"
    assert not Part.objects.exists() and not Component.objects.exists()


def test_what_a_review_said_is_no_business_of_the_author(program, rows, unit):
    answer = program.put(f"{rows}/measurements/mass", MASS | {"review_state": "confirmed"})
    assert answer.json()["row"]["review_state"] == "open"


def test_the_rows_of_a_list_are_listed(program, rows):
    program.put(f"{rows}/measurements/mass", MASS)
    answer = program.get(f"{rows}/measurements")
    assert [row["ref"] for row in answer.json()["rows"]] == ["measurement/mass"]
    assert faults_of(answer, "/bench/{unit}/evidence/{list}") == []


@pytest.mark.parametrize("path", ["/evidence/photos", "/evidence/nothing", "/sections/nothing"])
def test_a_list_or_section_that_is_none_is_refused(program, unit, path):
    assert program.get(f"/bench/{unit.pk}{path}").status_code == 422


def test_nobody_else_reads_or_writes_a_row(rows, bob, alice):
    tag = Program(alice).put(f"{rows}/measurements/mass", MASS)["ETag"]
    other = Program(bob)
    for answer in (other.get(f"{rows}/measurements/mass"),
                   other.put(f"{rows}/measurements/mass", MASS | {"value": 1.0}, If_Match=tag),
                   other.patch(f"{rows}/measurements/mass", {"value": 1.0}, If_Match=tag),
                   other.delete(f"{rows}/measurements/mass", If_Match=tag)):
        assert answer.status_code == 404
    assert Measurement.objects.get().value == 0.061


def test_fields_of_the_unit_are_changed_as_they_are_typed(program, unit):
    path = f"/bench/{unit.pk}/fields"
    read = program.get(path)
    answer = program.patch(path, {"fields": {"maker": "Veltrice", "price": "12.50",
                                             "currency": "eur"}}, If_Match=read["ETag"])
    unit.refresh_from_db()
    assert answer.status_code == 200 and faults_of(answer, "/bench/{unit}/fields", "patch") == []
    assert (unit.maker, unit.currency, str(unit.price)) == ("Veltrice", "EUR", "12.50")
    assert unit.title == "Veltrice VQ-45"
    stale = program.patch(path, {"fields": {"maker": "V"}}, If_Match=read["ETag"])
    assert stale.status_code == 412 and stale.json()["current"]["fields"]["maker"] == "Veltrice"


@pytest.mark.parametrize("fields, pointer", [
    ({"price": "-1", "currency": "EUR"}, "/fields/price"), ({"colour": "red"}, "/fields/colour"),
    ({"obtained_on": "2999-01-01"}, "/fields/obtained_on")])
def test_what_is_wrong_with_a_field_is_pointed_at(program, unit, fields, pointer):
    path = f"/bench/{unit.pk}/fields"
    answer = program.patch(path, {"fields": fields}, If_Match=program.get(path)["ETag"])
    assert pointer in [each["pointer"] for each in answer.json()["errors"]]


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.slug)
def test_every_section_is_read_and_saved_as_it_stands(program, unit, section):
    path = f"/bench/{unit.pk}/sections/{section.slug}"
    read = program.get(path)
    assert faults_of(read, "/bench/{unit}/sections/{slug}") == []
    answer = program.put(path, {"unit": read.json()["unit"], "rows": read.json()["rows"]})
    assert (answer.status_code, answer.json().get("changed")) == (200, 0), answer.content


def test_a_section_is_saved_as_it_would_be_typed(program, unit):
    path = f"/bench/{unit.pk}/sections/outside"
    answer = program.put(path, {"rows": {"mass-total": [{"value": "61 g ± 1 g",
                                                         "state": "recorded"}]}})
    assert answer.status_code == 200, answer.content
    row = Measurement.objects.get()
    assert (row.value, row.uncertainty) == (pytest.approx(0.061), pytest.approx(0.001))
    stored, = program.get(path).json()["rows"]["mass-total"]
    changed = program.put(path, {"rows": {"mass-total": [stored | {"value": "62 g"}]}})
    assert changed.json()["changed"] == 1


def test_a_row_typed_over_another_change_brings_both_texts(program, unit):
    path = f"/bench/{unit.pk}/sections/outside"
    program.put(path, {"rows": {"mass-total": [{"value": "61 g", "state": "recorded"}]}})
    stored, = program.get(path).json()["rows"]["mass-total"]
    program.put(path, {"rows": {"mass-total": [stored | {"value": "62 g"}]}})
    answer = program.put(path, {"rows": {"mass-total": [stored | {"value": "63 g"}]}})
    assert answer.status_code == 412
    assert answer.json()["current"]["rows"]["mass-total"][0]["value"].startswith("62 g")
    assert answer.json()["yours"]["rows"]["mass-total"][0]["value"] == "63 g"


@pytest.mark.parametrize("said, pointer", [
    ({"rows": {"mass-total": [{"value": "61 stones"}]}}, "/rows/mass-total/0/value"),
    ({"rows": {"mass-total": [{"weight": "61 g"}]}}, "/rows/mass-total/0/weight"),
    ({"rows": {"nothing": []}}, "/rows/nothing"), ({"unit": {"colour": "red"}}, "/unit/colour"),
    ({"rows": {"mass-total": "61 g"}}, "/rows/mass-total")])
def test_what_is_wrong_in_a_section_is_pointed_at(program, unit, said, pointer):
    answer = program.put(f"/bench/{unit.pk}/sections/outside", said)
    assert answer.status_code == 422
    assert pointer in [each["pointer"] for each in answer.json()["errors"]]


def test_claims_keep_their_words(program, unit, rows):
    program.put(f"{rows}/printed_texts/plate", {"source": "plate", "text": "OUTPUT 5V 2A"})
    answer = program.put(f"{rows}/claims/out", {
        "kind": "output", "text": "5V 2A", "voltage_low": 5.0, "voltage_high": 5.0,
        "current": 2.0, "printed_text": "plate", "start": 7, "end": 12})
    assert answer.status_code == 200, answer.content
    claim = Claim.objects.get()
    assert claim.printed_text.text[claim.start:claim.end] == "5V 2A"


@pytest.mark.parametrize("path", ["/fields", "/evidence/measurements", "/sections/outside",
                                  "/evidence/measurements/mass", "/photos", "/recordings"])
def test_reading_asks_few_queries(program, rows, unit, path, django_assert_max_num_queries):
    program.put(f"{rows}/measurements/mass", MASS)
    program.get(f"/bench/{unit.pk}/fields")             # the token was used a moment ago
    with django_assert_max_num_queries(12):
        assert program.get(f"/bench/{unit.pk}{path}").status_code == 200


def test_every_row_is_written_as_the_document_has_it(program, rows, unit, alice, mona):
    contain(unit, listed(mona))
    program.put(f"{rows}/ports/c1", {"label": "C1", "connector": "usb_c"})
    program.put(f"{rows}/measurements/held", {
        "quantity": "sustained_power", "value": 20.0, "port": "c1", "duration": 1800.0})
    document = unit_document(unit)
    for name in ("ports", "measurements", "components"):
        said = program.get(f"{rows}/{name}").json()["rows"]
        assert [row["row"] for row in said] == document[name] != []
