import io
import json
import zipfile
from hashlib import sha256

import pytest
from django.core.files.storage import storages
from django.utils import timezone

from teardowns import jobs
from teardowns.models import DataExport, Status, Unit
from teardowns.services import export_data
from teardowns.services.export_data import (
    GIVEN_UP,
    begin_export,
    export_slice,
    finish_export,
    offered_export,
)
from teardowns.services.quarantine_unit import quarantine_unit
from tests.handing_in import with_plate
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def three(alice):
    units = [with_plate(Unit.objects.create(contributor=alice, title=f"Veltrice VQ-{n}"), alice)
             for n in range(3)]
    for unit in units:
        published(unit)
    with_plate(Unit.objects.create(contributor=alice, title="A draft"), alice)
    return units


def export(size=2):
    made, after = begin_export(), 0
    while after is not None:
        after = export_slice(made, after, size)
    return finish_export(made)


def content(made):
    with storages["exports"].open(made.path) as file:
        return zipfile.ZipFile(io.BytesIO(file.read()))


def rows(made, table):
    return content(made).read(f"csv/{table}.csv").decode().splitlines()


def test_every_public_record_is_in_it_and_no_other(three):
    made = export()
    assert made.units == 3 and len(rows(made, "units")) == 4
    assert "A draft" not in content(made).read("csv/units.csv").decode()
    assert storages["exports"].listdir("parts")[1] == []


def test_slices_of_any_size_give_the_same_tables(three):
    first = content(export(size=1)).read("csv/printed_texts.csv")
    DataExport.objects.all().delete()
    assert content(export(size=100)).read("csv/printed_texts.csv") == first


def test_a_slice_that_is_written_twice_is_there_once(three):
    made = begin_export()
    last = export_slice(made, 0, 2)
    assert export_slice(made, 0, 2) == last and export_slice(made, last, 2) is None
    assert made.units == 3 and len(rows(finish_export(made), "units")) == 4


def test_it_is_made_anew_only_when_something_changed(three):
    export()
    assert begin_export() is None
    published(three[0])
    assert begin_export() is not None


def test_one_that_is_being_written_is_gone_on_with_and_one_that_was_given_up_is_not(three):
    first = begin_export()
    assert begin_export() == first
    DataExport.objects.update(began_at=timezone.now() - 2 * GIVEN_UP)
    assert begin_export() != first


def test_its_size_and_digest_are_those_of_the_file(three):
    made = export()
    stored = storages["exports"].open(made.path).read()
    assert (len(stored), sha256(stored).hexdigest()) == (made.byte_size, made.sha256)


def test_it_is_not_offered_once_a_record_of_it_is_out_of_sight(three, mona):
    made = export()
    assert offered_export() == made
    quarantine_unit(moderator=mona, unit_pk=three[0].pk, code="personal_data", facts="A face.")
    assert offered_export() is None
    again = export()
    assert offered_export() == again and len(rows(again, "units")) == 3


def test_older_files_go(three):
    names = []
    for _ in range(4):
        published(three[0])
        names.append(export().path)
    assert sorted(storages["exports"].listdir("")[1]) == sorted(names[-export_data.KEPT:])


def test_the_job_writes_it_slice_by_slice(three, monkeypatch):
    sliced = export_data.export_slice
    monkeypatch.setattr(jobs, "export_slice", lambda made, after: sliced(made, after, 1))
    queued = []
    monkeypatch.setattr(jobs, "async_task", lambda name, *args: queued.append(args))
    jobs.export_data()
    while queued:
        jobs.export_more(*queued.pop())
    made = DataExport.objects.get()
    assert made.made_at and made.units == 3
    assert json.loads(content(made).read("datapackage.json"))["name"] == made.name


def test_without_any_record_there_is_a_file_without_rows(db):
    assert len(rows(export(), "units")) == 1
    assert Unit.objects.filter(status=Status.PUBLISHED).count() == 0
