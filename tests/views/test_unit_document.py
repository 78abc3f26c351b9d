"""The whole record as a file."""
import json

import pytest
from django.urls import reverse

from teardowns.exchange.digest import digest
from teardowns.exchange.document import read_document
from teardowns.models import ContributionLicence, Submission
from tests.views.opened import DOCUMENT, opened
from tests.views.test_feeds import replied

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit(alice):
    return opened(alice)


def download(client, unit):
    return client.get(reverse("unit_document", args=[unit.pk]))


def test_it_gives_back_what_was_recorded(client, unit):
    document = json.loads(download(client, unit).content)
    assert document["printed_texts"] == [
        row | {"review_state": "confirmed"} for row in DOCUMENT["printed_texts"]]
    assert len(document["measurements"]) == len(DOCUMENT["measurements"])


def test_it_can_be_read_back(client, unit):
    assert read_document(download(client, unit).content)["unit"]["model"] == "VQ-45"


def test_it_is_a_file_with_a_name_of_ours(client, unit):
    response = download(client, unit)
    assert response["Content-Type"] == "application/json"
    name = f'attachment; filename="underplate-unit-{unit.pk}-v1.json"'
    assert response["Content-Disposition"] == name


def test_it_rejects_post(client, unit):
    assert client.post(reverse("unit_document", args=[unit.pk])).status_code == 405


def test_a_draft_is_nobody_elses_business(client, alice, bob):
    client.force_login(bob)
    assert download(client, opened(alice, "draft")).status_code == 404


def test_it_takes_at_most_twelve_queries(client, unit, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        download(client, unit)


def test_replies_stand_beside_the_evidence_and_move_nothing(client, unit, bob, mona):
    before = download(client, unit).json()
    replied(unit, bob, mona, "We changed it.")
    document = download(client, unit).json()
    assert document["replies"][0]["text"] == "We changed it."
    assert digest(read_document(document)) == digest(read_document(before))
    del document["replies"]
    assert document == before


def test_terms_stand_beside_the_evidence_and_in_the_header(client, unit):
    before = download(client, unit).json()
    submission = Submission.objects.create(unit=unit, author=unit.contributor)
    ContributionLicence.objects.create(
        submission=submission, unit=unit, author=unit.contributor, measurements="CC0-1.0",
        works="CC-BY-4.0", edition=1, text_sha256="ab" * 32, own_rights=True, third_party="none")
    answer = download(client, unit)
    document = answer.json()
    assert document["licences"][0]["works"] == "CC-BY-4.0"
    assert digest(read_document(document)) == digest(read_document(before))
    assert 'rel="license"' in answer["Link"]         # RFC 8288, relation of RFC 4946
