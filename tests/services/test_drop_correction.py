"""What is dropped leaves no trace in the record, and none of it is lost."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.exchange.document import write_document
from teardowns.models import (
    Annotation,
    Assessment,
    Claim,
    Component,
    Measurement,
    Photo,
    PhotoScale,
    Port,
    Unit,
    UnsavedSection,
)
from teardowns.services.drop_correction import drop_correction
from teardowns.services.export_unit import unit_document
from teardowns.services.receive_photo import receive_photo
from teardowns.services.thaw import freeze
from teardowns.workflow import NotNow
from tests.corrections import corrected, public_unit, write
from tests.photographs import photograph
from tests.published import published


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def exported(unit):
    return write_document(unit_document(Unit.objects.get(pk=unit.pk)))


def frozen(unit):
    """Every row with every column, but when it was last looked at."""
    rows = freeze(Unit.objects.get(pk=unit.pk))
    rows["unit"]["fields"].pop("changed_at")
    return rows


def drop(unit, bob):
    return drop_correction(author=bob, unit_pk=unit.pk)


def test_the_exported_document_is_the_same_to_the_byte(unit, bob):
    before = exported(unit)
    corrected(unit, bob)
    write(unit)
    assert exported(unit) != before
    drop(unit, bob)
    assert exported(unit) == before


def test_so_is_every_column_of_every_row(unit, bob):
    before = frozen(unit)
    corrected(unit, bob)
    write(unit)
    Component.objects.filter(unit=unit).delete()
    Unit.objects.filter(pk=unit.pk).update(title="Something else", maker="", price=None)
    drop(unit, bob)
    assert frozen(unit) == before


def test_what_cited_a_removed_row_cites_it_again(unit, bob):
    before = exported(unit)
    corrected(unit, bob)
    Port.objects.get(unit=unit, key="c1").delete()
    assert Measurement.objects.get(unit=unit, key="held").port is None
    drop(unit, bob)
    assert Measurement.objects.get(unit=unit, key="held").port.key == "c1"
    assert exported(unit) == before


def test_ports_that_changed_labels_change_them_back(unit, alice, bob):
    Port.objects.create(unit=unit, key="c2", label="C2", connector="usb_c", author=alice)
    published(Unit.objects.get(pk=unit.pk))
    before = exported(unit)
    corrected(unit, bob)
    for key, label in (("c1", "X"), ("c2", "C1"), ("c1", "C2")):
        Port.objects.filter(unit=unit, key=key).update(label=label)
    drop(unit, bob)
    assert exported(unit) == before


def test_it_stands_assessed_as_it_stood(unit, bob):
    corrected(unit, bob)
    write(unit)
    drop(unit, bob)
    newest = Assessment.objects.filter(unit=unit, confirmed_only=False).first()
    assert newest == unit.publication.standing_all


def test_what_was_proposed_stays_readable(unit, bob):
    corrected(unit, bob)
    write(unit)
    proposed = unit_document(Unit.objects.get(pk=unit.pk))
    dropped = drop(unit, bob)
    assert dropped.proposal["document"] == proposed
    assert (dropped.status, dropped.closed_at is None) == ("discarded", False)


def test_a_photo_that_came_with_it_is_kept_and_part_of_nothing(unit, bob, tmp_path):
    before = exported(unit)
    corrected(unit, bob)
    path = photograph(tmp_path, "board.png")
    photo = receive_photo(contributor=bob, unit_pk=unit.pk, path=path, name="board.png").photo
    Annotation.objects.create(photo=photo, key="a", body={}, shows="claim/input", author=bob)
    drop(unit, bob)
    photo.refresh_from_db()
    assert photo.set_aside and not Photo.objects.shown().filter(pk=photo.pk).exists()
    assert photo.derivatives.exists() and exported(unit) == before


def test_the_same_photo_sent_again_is_part_of_the_next_one(unit, bob, tmp_path):
    corrected(unit, bob)
    path = photograph(tmp_path, "board.png")
    receive_photo(contributor=bob, unit_pk=unit.pk, path=path, name="board.png")
    drop(unit, bob)
    corrected(unit, bob)
    again = receive_photo(contributor=bob, unit_pk=unit.pk, path=path, name="board.png").photo
    assert not again.set_aside and again.taken_down_at is None
    assert again.sha256 in exported(unit)


def test_marks_on_photos_are_as_they_were_but_others_readings_stay(unit, alice, bob, rita):
    photo = unit.photos.get()
    mark = Annotation.objects.create(photo=photo, key="a", body={"at": 1}, author=alice)
    published(Unit.objects.get(pk=unit.pk))
    corrected(unit, bob)
    Annotation.objects.filter(pk=mark.pk).update(body={"at": 2})
    Annotation.objects.create(photo=photo, key="b", body={}, author=bob)
    by_rita = PhotoScale.objects.create(photo=photo, points=[], lengths=[0.01], author=rita)
    drop(unit, bob)
    assert dict(photo.annotations.values_list("key", "body")) == {"a": {"at": 1}}
    assert PhotoScale.objects.filter(pk=by_rita.pk).exists()


def test_what_a_stranger_took_down_is_back_and_what_its_owner_took_down_stays_down(
        unit, alice, bob):
    for writer, is_down in ((bob, False), (alice, True)):
        corrected(unit, writer)
        photo = unit.photos.get()
        photo.taken_down_at, photo.take_down_reason = unit.publication.published_at, "a face"
        photo.save()
        drop_correction(author=writer, unit_pk=unit.pk)
        assert (unit.photos.get().taken_down_at is not None) is is_down


def test_the_history_of_a_row_tells_of_it(unit, bob):
    corrected(unit, bob)
    write(unit)
    drop(unit, bob)
    newest = Claim.objects.get(unit=unit, key="class-2").history.first()
    assert newest.history_user == bob and "version that stands" in newest.history_change_reason


def test_what_was_typed_and_not_saved_goes_with_it(unit, bob):
    corrected(unit, bob)
    UnsavedSection.objects.create(unit=unit, section="outside", author=bob, fields={})
    drop(unit, bob)
    assert not UnsavedSection.objects.filter(unit=unit).exists()


def test_it_is_one_entry_of_the_log(unit, bob):
    corrected(unit, bob)
    write(unit)
    known = Entry.objects.count()
    drop(unit, bob)
    entry, = Entry.objects.order_by("-pk")[:Entry.objects.count() - known]
    assert (entry.action, entry.actor) == ("work_discard", bob)


@pytest.mark.parametrize("status", ["submitted", "in_review"])
def test_what_was_handed_in_is_taken_back_first(unit, bob, status):
    correction = corrected(unit, bob)
    correction.status = status
    correction.save()
    with pytest.raises(NotNow, match="Take it back first"):
        drop(unit, bob)


def test_nobody_drops_what_is_not_theirs(unit, alice, bob):
    corrected(unit, bob)
    with pytest.raises(Http404):
        drop_correction(author=alice, unit_pk=unit.pk)


def test_there_is_nothing_to_drop_twice(unit, alice):
    corrected(unit, alice)
    drop(unit, alice)
    with pytest.raises(NotNow, match="No correction"):
        drop(unit, alice)
