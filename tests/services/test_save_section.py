import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Measurement, Port, UnsavedSection
from teardowns.services import save_section as saving
from teardowns.services.cite_part import SaveRefused
from teardowns.services.keep_typed import keep_typed
from teardowns.services.save_section import RowChange, StaleRows, UnitChange, save_section

pytestmark = pytest.mark.django_db
MASS = {"quantity": "mass_total", "value": 0.07, "state": "recorded", "note": ""}


def mass(version=0, **changed):
    return RowChange(Measurement, "mass-total", version, MASS | changed)


def save(person, unit, *rows, **options):
    return save_section(person, unit.pk, "outside", rows, **options)


def test_a_new_row_has_its_author_version_and_history(alice, unit):
    save(alice, unit, mass())
    row = Measurement.objects.get(unit=unit)
    assert (row.author, row.version, row.value) == (alice, 1, 0.07)
    entry = row.history.get()
    assert (entry.history_user, entry.history_change_reason) == (alice, "Bench sheet: outside")


def test_a_resend_changes_nothing(alice, unit):
    save(alice, unit, mass())
    assert save(alice, unit, mass()).changed == 0
    assert Measurement.objects.get(unit=unit).history.count() == 1


def test_a_change_raises_the_version_and_asks_for_review_again(alice, unit):
    save(alice, unit, mass())
    Measurement.objects.update(review_state="confirmed")
    save(alice, unit, mass(1, value=0.08))
    row = Measurement.objects.get(unit=unit)
    assert (row.version, row.value, row.review_state) == (2, 0.08, "open")


def test_a_value_from_anywhere_takes_the_place_of_a_limit(alice, unit):
    save(alice, unit, mass(value=None, state="not_readable", bound=0.05, bound_kind="above"))
    save(alice, unit, mass(1))
    row = Measurement.objects.get(unit=unit)
    assert (row.value, row.bound, row.bound_kind) == (0.07, None, "")


def test_a_row_that_changed_meanwhile_stops_the_whole_section(alice, unit):
    save(alice, unit, mass())
    save(alice, unit, mass(1, value=0.08))
    port = RowChange(Port, "c1", 0, {"label": "C1"})
    with pytest.raises(StaleRows):
        save(alice, unit, port, mass(1, value=0.09))
    assert not Port.objects.exists()
    assert Measurement.objects.get(unit=unit).value == 0.08


def test_a_row_that_was_removed_meanwhile_is_not_brought_back_unasked(alice, unit):
    with pytest.raises(StaleRows):
        save(alice, unit, mass(3))


def test_removing_keeps_the_history_and_may_be_sent_twice(alice, unit):
    save(alice, unit, mass())
    gone = RowChange(Measurement, "mass-total", 1, None)
    assert [save(alice, unit, gone).changed, save(alice, unit, gone).changed] == [1, 0]
    assert [h.history_type for h in Measurement.history.order_by("history_id")] == ["+", "-"]


def test_rows_name_each_other_by_key_in_one_save(alice, unit):
    offered = {"quantity": "offered_voltage", "value": 5.1, "state": "recorded", "port": "c1"}
    save(alice, unit, RowChange(Measurement, "offered", 0, offered),
         RowChange(Port, "c1", 0, {"label": "C1"}))
    assert Measurement.objects.get(unit=unit).port == Port.objects.get(unit=unit)


def test_the_unit_itself_is_guarded_by_its_version(alice, unit):
    save(alice, unit, unit_change=UnitChange(1, {"maker": "Veltrice"}))
    with pytest.raises(StaleRows):
        save(alice, unit, unit_change=UnitChange(1, {"maker": "Someone else"}))
    unit.refresh_from_db()
    assert (unit.maker, unit.version) == ("Veltrice", 2)


def test_it_is_logged_and_what_was_kept_as_typed_is_gone(alice, unit):
    keep_typed(unit, alice, "outside", {"mass-total-0-value": "x", "csrfmiddlewaretoken": "t"})
    save(alice, unit, mass(), confirmations=["discharge_confirmed"])
    assert not UnsavedSection.objects.exists()
    actions = Entry.objects.order_by("pk").values_list("action", flat=True)
    assert list(actions) == ["section_saved", "discharge_confirmed"]


def test_others_and_closed_sheets_are_refused(alice, bob, mona, unit):
    for person in (bob, mona):
        with pytest.raises(Http404):
            save(person, unit, mass())
    unit.status = "submitted"
    unit.save()
    with pytest.raises(Http404):
        save(alice, unit, mass())


def test_a_value_that_no_column_takes_is_refused_in_words(alice, unit):
    with pytest.raises(SaveRefused) as refused:
        save(alice, unit, mass(state="guessed"))
    assert "guessed" in refused.value.message
    assert not Measurement.objects.exists()


def test_names_that_collide_in_the_database_are_refused_in_words(alice, unit):
    rows = [RowChange(Port, key, 0, {"label": "C1"}) for key in ("a", "b")]
    with pytest.raises(SaveRefused):
        save(alice, unit, *rows)
    assert not Port.objects.exists()


def test_each_save_is_assessed(alice, unit):
    assert save(alice, unit, mass()).assessed
    first = unit.assessments.first()
    save(alice, unit, mass(1, value=0.08))
    assert unit.assessments.first() != first


def test_trouble_in_the_engine_does_not_lose_what_was_saved(alice, unit, monkeypatch):
    def broken(units):
        raise ArithmeticError

    monkeypatch.setattr(saving, "assess_units", broken)
    assert not save(alice, unit, mass()).assessed
    assert Measurement.objects.get(unit=unit).value == 0.07
