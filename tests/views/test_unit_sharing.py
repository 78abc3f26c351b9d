"""What a record's page says of itself to who links to it, and its ways out."""
import re

import pytest
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import Unit
from tests.published import published
from tests.views.printed import public_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit(settings):
    settings.SITE_URL = "https://underplate.example"
    return public_unit("01-brethuld-b5.json")


def told(client, address):
    page = client.get(address).content.decode()
    head = page.partition("</head>")[0]
    return dict(re.findall(r'<meta property="og:([\w:]+)" content="([^"]*)">', head)) | dict(
        re.findall(r'<link rel="(canonical)" href="([^"]*)">', head))


def test_it_tells_absolute_addresses_and_the_answer(client, unit):
    said = told(client, f"/units/{unit.pk}/")
    assert said["canonical"] == said["url"] == f"https://underplate.example/units/{unit.pk}/"
    assert said["image"].startswith(f"https://underplate.example/units/{unit.pk}/card.png")
    assert said["description"].startswith("In the unit examined: the evidence ")
    assert "nsulation" in said["description"] and said["image:alt"]


def test_an_older_version_is_itself_and_not_what_stands(client, unit):
    published(unit)
    said = told(client, f"/units/{unit.pk}/versions/1/")
    assert said["canonical"] == f"https://underplate.example/units/{unit.pk}/versions/1/"


def test_a_working_copy_tells_nobody_anything(client, unit):
    Unit.objects.filter(pk=unit.pk).update(quarantined_at=timezone.now())
    client.force_login(User.objects.get(username="alice"))
    assert told(client, f"/units/{unit.pk}/") == {}


def test_it_leads_to_paper_and_citation(client, unit):
    page = client.get(f"/units/{unit.pk}/").content.decode()
    assert f'href="/units/{unit.pk}/report/"' in page and f'href="/units/{unit.pk}/cite/"' in page


def test_the_foot_states_the_terms(client, unit):
    assert re.search(r"<dt>Terms</dt><dd>not stated</dd>",
                     client.get(f"/units/{unit.pk}/").content.decode())
