"""The calculation sheet behind one number."""
import re

import pytest
from django.urls import reverse

from teardowns.engine import rulebook
from teardowns.models import Assessment, Unit
from tests.published import published
from tests.views.opened import opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit(alice):
    return opened(alice)


def sheet(client, unit, line="power/bulk_capacitor", end="low", **query):
    return client.get(reverse("unit_working", args=[unit.pk, line, end]), query)


def text_of(response):
    return " ".join(re.sub(r"<[^>]+>", " ", response.content.decode()).split())


def test_it_shows_formula_numbers_budget_and_source(client, unit):
    page = sheet(client, unit).content.decode()
    assert "<math" in page
    assert 'class="scale budget"' in page
    assert rulebook.load()["power/bulk_capacitor"].validity.split(".")[0] in page


def test_it_shows_the_number_of_the_units_page(client, unit):
    report = unit.publication.standing.payload
    line = next(line for line in report["lines"] if line["id"] == "power/bulk_capacitor")
    shown = re.search(r"90 %: ([\d.]+) to ([\d.]+)", text_of(sheet(client, unit)))
    assert float(shown[1]) == pytest.approx(line["ends"]["low"]["low"], rel=0.01)
    assert float(shown[2]) == pytest.approx(line["ends"]["low"]["high"], rel=0.01)


def test_an_input_leads_back_to_its_row_of_evidence(client, unit):
    page = sheet(client, unit).content.decode()
    assert f'href="/units/{unit.pk}/#measurement-bulk"' in page
    assert "15.2\u202f±\u202f0.3\u202fµF" in page


def test_what_nobody_looked_for_is_called_a_default_and_not_a_finding(client, unit):
    words = text_of(sheet(client, unit))
    corrector = words[words.index("Active power-factor corrector"):]
    assert corrector.startswith("Active power-factor corrector taken as absent rulebook default")


def test_the_other_mains_end_is_one_step_away(client, unit):
    page = sheet(client, unit).content.decode()
    assert reverse("unit_working", args=[unit.pk, "power/bulk_capacitor", "high"]) in page


def test_no_step_leads_to_an_end_where_the_line_says_nothing(client, alice):
    # A table for universal input says nothing at 240 V.
    line = "power/controller_power_wide"
    unit = opened(alice, measurements=[
        {"key": "table", "quantity": "controller_power_wide", "value": 25.0}])
    shown = sheet(client, unit, line)
    assert shown.status_code == 200 and sheet(client, unit, line, "high").status_code == 404
    assert reverse("unit_working", args=[unit.pk, line, "high"]) not in shown.content.decode()


def test_a_check_shows_what_it_says_of_each_claim(client, unit):
    words = text_of(sheet(client, unit, "checks/plate_input_balance"))
    assert "“5V⎓3A”" in words and "“20V⎓2.25A”" in words
    assert "consistent" in words


def test_a_check_that_has_nothing_to_look_at_says_so(client, alice):
    unit = Unit.objects.create(contributor=alice, title="Lumen 30")
    published(unit)
    page = sheet(client, unit, "checks/capability_list")
    assert "Nothing is recorded of this unit that this check looks at" in text_of(page)
    assert 'class="ends"' not in page.content.decode() and "What the check" not in text_of(page)


def test_a_line_can_be_read_as_evidence_about_another_claim(client, unit):
    assert "claim “5V⎓3A”" in text_of(sheet(client, unit, claim="out-5"))


@pytest.mark.parametrize(("line", "end", "query"), [
    ("power/no_such_rule", "low", {}),
    ("power/bulk_capacitor", "middle", {}),
    ("power/controller_power_wide", "low", {}),       # no such evidence in this unit
    ("power/bulk_capacitor", "low", {"claim": "no-such-claim"}),
])
def test_what_does_not_exist_is_not_found(client, unit, line, end, query):
    assert sheet(client, unit, line, end, **query).status_code == 404


def test_it_says_when_the_stored_assessment_is_of_another_rulebook(client, unit):
    assert "may differ" not in text_of(sheet(client, unit))
    Assessment.objects.filter(unit=unit).update(rulebook="0+0badcafe")
    assert "The stored assessment is of rulebook edition 0, 0badcafe" in text_of(
        sheet(client, unit))


def test_it_says_when_the_evidence_of_a_working_copy_has_changed_since(client, alice):
    unit = opened(alice, "sent_back")
    client.force_login(alice)
    unit.measurements.filter(key="bulk").update(value=2e-5)
    assert "The evidence has changed since the stored assessment" in text_of(sheet(client, unit))


def test_it_rejects_post(client, unit):
    address = reverse("unit_working", args=[unit.pk, "power/bulk_capacitor", "low"])
    assert client.post(address).status_code == 405


def test_a_draft_is_nobody_elses_business(client, alice, bob):
    client.force_login(bob)
    assert sheet(client, opened(alice, "draft")).status_code == 404


def test_it_takes_at_most_twelve_queries(client, unit, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        sheet(client, unit)


def test_a_grade_opens_into_reading_requirement_assumptions_and_source(client, unit):
    page = sheet(client, unit, "safety/clearance", of="slot")
    words = text_of(page)
    # 3.0 mm reinforced at 240 V: test report on a charger, IEC 62368-1, 2021, p. 43
    assert "Required, under the most demanding assumptions 3 mm" in words
    assert "Compared 3.40 ± 0.10 mm" in words
    assert "Taken for granted Overvoltage category II" in words
    assert "two published sources agree on the figure" in words
    assert f'href="/units/{unit.pk}/#insulationobservation-slot"' in page.content.decode()


def test_the_sheet_of_a_grade_says_what_nobody_recorded(client, unit):
    words = text_of(sheet(client, unit, "safety/clearance", of="slot"))
    assert "Not recorded:" in words and "working voltage, peak" in words


def test_the_sheet_of_one_path_leads_to_the_others_of_its_rule(client, unit):
    page = sheet(client, unit, "safety/clearance", of="slot").content.decode()
    assert "/working/safety/clearance/low/?of=seam" in page


def test_the_sheet_of_a_grade_defers(client, unit):
    assert "not a safety certificate" in text_of(sheet(client, unit, "safety/clearance"))


def test_a_path_that_the_rule_does_not_speak_of_is_not_found(client, unit):
    assert sheet(client, unit, "safety/clearance", of="no-such-path").status_code == 404
