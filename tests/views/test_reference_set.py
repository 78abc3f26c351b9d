"""With a reference set in force, pages show its fit and agree with the stored assessment."""
import pytest

from teardowns.services.reassess_publications import reassess_slice
from teardowns.services.rebuild_reference_set import (
    activate_reference_set,
    propose_reference_set,
)
from tests.services.measured_units import measured_units

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit(alice):
    units = measured_units(alice)
    activate_reference_set(propose_reference_set().stored, alice)
    reassess_slice()
    units[7].refresh_from_db()
    return units[7]


def shown(client, address):
    return client.get(address).content.decode()


def test_the_method_page_prints_the_fit_and_the_set(client, unit):
    page = shown(client, "/method/")
    assert "Robust fit (Huber) to 14 published units" in page
    assert unit.publication.standing.payload["reference_set"] in page


@pytest.mark.parametrize("address", ["working/power/mass_per_watt/low/", "claims/out/"])
def test_a_sheet_is_of_the_same_rules_as_the_stored_assessment(client, unit, address):
    page = shown(client, f"/units/{unit.pk}/{address}")
    assert "may differ" not in page
    assert f"reference set {unit.publication.standing.payload['reference_set']}" in page


def test_the_units_page_names_the_set(client, unit):
    assert "reference set set1-" in shown(client, f"/units/{unit.pk}/")


def test_after_another_set_a_sheet_says_that_the_stored_numbers_are_of_the_one_before(
        client, unit, alice):
    measured_units(alice, n=3)
    activate_reference_set(propose_reference_set().stored, alice)
    assert "may differ" in shown(client, f"/units/{unit.pk}/working/power/mass_per_watt/low/")
