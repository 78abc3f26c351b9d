"""Every public page as a German reader gets it: no word of ours stays English.

What people wrote is said in no language but theirs, so that it is never asked for either: a text
that is missed here lacks its translation, or was handed to `|said` though a person wrote it.
"""
import json
from pathlib import Path

import pytest
from django.conf import settings
from django.urls import reverse

from core.policy import ANYONE, POLICY
from core.words.said import catalogue
from teardowns.services.assess_units import assess_units
from teardowns.services.import_unit import import_unit
from tests.core.policy_addresses import address
from tests.core.policy_world import world_in
from tests.published import confirm_all, published
from tests.views.opened import opened

pytestmark = pytest.mark.django_db
UNITS = Path(settings.BASE_DIR) / "fixtures/units"
SHORT = "17-*.json"          # its insulation falls short of its figures
# Of one unit; the others are found by the table of addresses.
PAGES_OF_UNIT = ("unit_detail", "unit_versions", "unit_report", "unit_cite", "unit_recordings",
                 "unit_discussion", "unit_replies")
# Made for checking styles, with sample words.
SAMPLES = {"styleguide"}


@pytest.fixture
def missed(monkeypatch):
    """Text → the page that asked for it first."""
    found = {}
    page = [""]
    monkeypatch.setattr(catalogue("de"), "missed", lambda text: found.setdefault(text, page[0]))

    def read(client, path):
        page[0] = path
        response = client.get(path, HTTP_ACCEPT_LANGUAGE="de")
        assert response.status_code < 500, path
        if response.status_code == 200 and "text/html" in response["Content-Type"]:
            assert '<html lang="de">' in response.content.decode(), path
    found["read"] = read
    return found


def told(missed):
    return "\n".join(f"{page}: {text}" for text, page in missed.items())


def recorded(pattern, contributor):
    (path,) = UNITS.glob(pattern)
    unit = import_unit(json.loads(path.read_text()), contributor, "in_review")
    confirm_all(unit)
    published(unit)
    return unit


def test_no_text_of_a_public_page_is_missed(client, missed, tmp_path):
    read = missed.pop("read")
    world = world_in("published", tmp_path)
    for name, methods in POLICY.items():
        if methods.get("GET") == ANYONE and not name.startswith("api_") and name not in SAMPLES:
            read(client, address(name, world, "GET"))
    assert not missed, told(missed)


def test_no_text_of_a_record_is_missed(client, missed, alice):
    read = missed.pop("read")
    units = [opened(alice), recorded(SHORT, alice)]
    assess_units(units)
    for unit in units:
        for name in PAGES_OF_UNIT:
            read(client, reverse(name, args=[unit.pk]))
        lines = unit.assessments.latest().payload["lines"]
        for line in [line for line in lines if line["used"]][:3]:
            read(client, reverse("unit_working", args=[unit.pk, line["id"], "low"]))
        read(client, reverse("unit_working", args=[unit.pk, "safety/clearance", "low"]))
        read(client, reverse("unit_claim_working", args=[unit.pk, unit.claims.filter(
            kind="output").first().key]))
    read(client, reverse("compare") + "?" + "&".join(f"unit={unit.pk}" for unit in units))
    assert not missed, told(missed)


def test_a_page_that_was_kept_in_english_is_german_for_a_german(client, alice):
    unit = opened(alice)
    address = reverse("unit_detail", args=[unit.pk])
    for language in ("en", "de", "en", "de"):
        page = client.get(address, HTTP_ACCEPT_LANGUAGE=language).content.decode()
        assert f'<html lang="{language}">' in page
