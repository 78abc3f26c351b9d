"""Rows as a frozen state has them: the properties that every caller relies on."""
import pytest
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from teardowns.models import EVIDENCE, Component, Measurement, Port, Recording, Unit
from teardowns.services.restore_rows import SET_ASIDE, restore_rows
from teardowns.services.thaw import freeze
from tests.corrections import public_unit


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def restored(unit, frozen, writer):
    with transaction.atomic():
        restore_rows(unit, frozen, writer, writer)
    return rows(unit)


def rows(unit):
    found = freeze(Unit.objects.get(pk=unit.pk))
    found["unit"]["fields"].pop("changed_at")
    return found


def test_what_is_as_it_was_is_not_touched(unit, bob):
    before = rows(unit)
    assert restored(unit, freeze(unit), bob) == before
    assert not Measurement.history.filter(history_user=bob).exists()


def test_a_version_of_before_a_column_came_is_as_it_was(unit, bob):
    since = {"bound": None, "bound_kind": "", "all_ports": False, "output_current": None}
    Measurement.objects.filter(unit=unit).update(**since)
    frozen = freeze(unit)
    for row in frozen["measurement"]:
        for name in since:
            del row["fields"][name]
    before = rows(unit)
    assert restored(unit, frozen, bob) == before
    assert not Measurement.history.filter(history_user=bob).exists()
    Measurement.objects.filter(unit=unit, port=None).update(all_ports=True)
    assert restored(unit, frozen, bob) == before                # the default is what it was


@settings(max_examples=12, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sets(st.tuples(st.sampled_from(range(len(EVIDENCE))), st.booleans()), max_size=8))
def test_whatever_was_deleted_or_edited_comes_back(unit, bob, edits):
    frozen = unit.publication.frozen
    before = rows(unit)
    for place, is_deleted in sorted(edits):
        found = EVIDENCE[place].objects.filter(unit=unit)
        if is_deleted:
            found.delete()
        else:
            found.update(note="other", version=7, review_state="disputed", how="estimated")
    assert restored(unit, frozen, bob) == before


def test_rows_of_both_states_under_one_key_are_told_apart(unit, bob):
    frozen = freeze(unit)
    before = rows(unit)
    Port.objects.get(unit=unit, key="c1").delete()
    Port.objects.create(unit=unit, key="c1", label="C1", connector="usb_a", author=bob)
    assert restored(unit, frozen, bob) == before


def test_what_names_a_restored_row_names_it_again(unit, bob):
    frozen = freeze(unit)
    Component.objects.get(unit=unit, key="bulk-1").delete()
    restored(unit, frozen, bob)
    assert Measurement.objects.get(unit=unit, key="held").component.key == "bulk-1"


def test_a_log_that_came_since_is_set_aside_with_the_reason(unit, bob):
    frozen = freeze(unit)
    log = Recording.objects.create(unit=unit, key="log-2", kind="endurance", sha256="ef" * 32,
                                   received=True, author=bob)
    restored(unit, frozen, bob)
    log.refresh_from_db()
    assert log.set_aside and log.take_down_reason == SET_ASIDE


def test_what_it_proposed_can_be_put_back_with_its_files(unit, bob):
    frozen = freeze(unit)
    Recording.objects.create(unit=unit, key="log-2", kind="endurance", sha256="ef" * 32,
                             received=True, author=bob)
    proposed, written = freeze(unit), rows(unit)
    restored(unit, frozen, bob)
    assert restored(unit, proposed, bob) == written
    assert not Recording.objects.get(unit=unit, key="log-2").set_aside


def test_files_that_a_version_has_shown_are_never_set_aside(unit, bob):
    photo = unit.photos.get()
    without = freeze(unit) | {"photo": []}
    restored(unit, without, bob)
    photo.refresh_from_db()
    assert not photo.set_aside and photo.taken_down_at is None
