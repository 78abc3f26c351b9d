import io
import zipfile

import pytest
from django.urls import reverse

from teardowns.models import DataExport
from teardowns.services.export_data import begin_export, export_slice, finish_export
from teardowns.services.withdraw_unit import withdraw_unit
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def export(unit):
    published(unit)
    made = begin_export()
    assert export_slice(made) is None
    return finish_export(made)


def test_the_page_names_the_file_its_digest_and_every_table(client, export):
    page = client.get("/data/").content.decode()
    assert export.sha256 in page and reverse("data_package", args=[export.name]) in page
    assert "insulation" in page and "evidence_digest" in page


def test_without_a_file_the_page_says_so(client, db):
    assert "No file is offered" in client.get("/data/").content.decode()


def test_the_file_comes_with_its_licence_and_its_digest(client, export):
    answer = client.get(reverse("data_package", args=[export.name]))
    found = zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content)))
    assert "datapackage.json" in found.namelist()
    assert 'rel="license"' in answer["Link"] and answer["Repr-Digest"].startswith("sha-256=:")


def test_another_name_and_a_file_that_went_out_of_sight_are_not_found(client, export, unit, mona):
    assert client.get("/data/underplate-2020-01-01-1.zip").status_code == 404
    withdraw_unit(by=mona, unit_pk=unit.pk, code="not_this_unit", facts="Another specimen.")
    assert client.get(reverse("data_package", args=[export.name])).status_code == 404
    assert DataExport.objects.count() == 1


def test_a_record_is_loaded_as_a_bag_by_everybody_and_a_draft_by_nobody(client, unit):
    address = reverse("unit_bag", args=[unit.pk])
    assert client.get(address).status_code == 404
    published(unit)
    answer = client.get(address)
    found = zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content)))
    assert f"underplate-unit-{unit.pk}-v1/bagit.txt" in found.namelist()


def test_these_addresses_only_answer_get(client, export, unit):
    for address in ("/data/", reverse("data_package", args=[export.name]),
                    reverse("unit_bag", args=[unit.pk])):
        assert client.post(address).status_code in (403, 405)
