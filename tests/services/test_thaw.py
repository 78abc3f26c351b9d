"""A version is thawed as it was frozen, whatever became of the rows since."""
import pytest

from teardowns.models import EVIDENCE, Component, Measurement, Part
from teardowns.services.export_unit import unit_document
from teardowns.services.thaw import thaw, thawed_recordings
from tests.published import published
from tests.views.opened import opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def version(alice):
    return opened(alice).publication


def values(row):
    return {field.attname: getattr(row, field.attname) for field in row._meta.fields}


def test_every_row_comes_back_with_every_column(version):
    thawed = thaw(version)
    for model in EVIDENCE:
        live = list(model.objects.filter(unit=version.unit).order_by("pk"))
        frozen = thawed.evidence[model._meta.model_name]
        assert [values(row) for row in frozen] == [values(row) for row in live]


def test_what_changes_afterwards_does_not_reach_it(version):
    before = [values(row) for row in thaw(version).rows["measurement"]]
    Measurement.objects.filter(unit=version.unit).update(value=1.0)
    Component.objects.filter(unit=version.unit).delete()
    assert [values(row) for row in thaw(version).rows["measurement"]] == before
    assert thaw(version).rows["component"]


def test_the_title_is_that_of_the_version_and_the_status_is_todays(version):
    unit = version.unit
    unit.title, unit.status = "Another", "withdrawn"
    unit.save()
    thawed = thaw(version)
    assert thawed.unit.title.startswith("Veltrice") and thawed.unit.status == "withdrawn"


def test_rows_name_each_other_without_asking(version, django_assert_max_num_queries):
    with django_assert_max_num_queries(2):                 # people and parts
        thawed = thaw(version)
        held = next(row for row in thawed.rows["measurement"] if row.key == "held")
        claim = next(row for row in thawed.rows["claim"] if row.key == "out-5")
        assert held.port.label == "C1" and claim.printed_text.key == "plate"
        assert held.author.get_username() == "alice" and held.unit is thawed.unit


def test_a_part_of_the_library_is_joined(alice, unit):
    part = Part.objects.create(marking="UWK-05", curator=alice)
    Component.objects.create(unit=unit, author=alice, key="u1", role="primary_controller",
                             part=part)
    version = published(unit)
    assert thaw(version).rows["component"][0].part.marking == "UWK-05"


def test_its_document_is_that_of_the_rows_it_froze(version):
    assert version.document == unit_document(version.unit)


def test_marks_on_a_photo_are_those_of_the_version(unit, photo, alice):
    photo.annotations.create(key="m1", body={}, shows="component/u1", author=alice)
    version = published(unit)
    photo.annotations.all().delete()
    thawed = thaw(version)
    assert [mark.key for mark in thawed.rows["annotation"]] == ["m1"]
    assert thawed.photo(photo.key) == photo and thawed.photo("none") is None


def test_logs_of_many_versions_cost_nothing_more(recording, django_assert_num_queries):
    version = published(recording.unit)
    with django_assert_num_queries(0):
        logs = thawed_recordings([version])[recording.unit_id]
        assert [log.key for log in logs] == [recording.key]
        assert logs[0].channels == recording.channels
