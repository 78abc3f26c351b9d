"""One unit as one row of a list."""
import pytest
from django.utils.safestring import mark_safe
from django.utils.translation import get_language, override

from teardowns.presenting import unit_rows as rows_of_lists
from tests.views.listed import enlist, listed

pytestmark = pytest.mark.django_db


def unit_rows(pks, snippets=None, state=None):
    return rows_of_lists.unit_rows(pks, state or object(), snippets)


def test_rows_come_in_the_order_asked_for_and_only_of_what_is_listed():
    first, second, gone = (listed(title) for title in ("first", "second", "gone"))
    enlist(gone, is_listed=False)
    rows = unit_rows([second.pk, gone.pk, first.pk, 10**6])
    assert rows.index(">second<") < rows.index(">first<") and "gone" not in rows


def test_a_unit_without_a_claim_stays_and_claims_nothing():
    row = unit_rows([listed("A charger", verdict="").pk])
    assert "no power claim" in row and "capability unknown" in row and "held" not in row
    assert "no claim to judge" in row and 'class="cap"' not in row


def test_the_origin_names_what_is_known():
    row = unit_rows([listed("A charger", maker="", model="CV-45", kind="desktop").pk])
    assert "<small>CV-45 · desktop adapter · " in row


@pytest.mark.parametrize("held, lost, mains, told", [
    (14.2, 15.6, 230.0, "held 14.2\u202fW, did not hold 15.6\u202fW (230\u202fV)"),
    (14.2, None, 115.0, "held 14.2\u202fW (115\u202fV)"),
    (None, 20.0, None, "did not hold 20.0\u202fW"),
])
def test_the_loads_of_a_test_and_the_level_stand_in_it(held, lost, mains, told):
    row = unit_rows([listed("A charger", risk=3, facts={
        "load_held": held, "load_lost": lost, "load_mains": mains}).pk])
    assert f"<br>{told}<" in row and "risk high" in row


def test_a_unit_is_shown_by_its_photo_or_it_is_said_that_there_is_none():
    seen = listed("Seen", facts={"picture": "outside"})
    row = unit_rows([seen.pk])
    assert f'<img class="look" src="/units/{seen.pk}/photos/outside/320.webp" alt=""' in row
    assert ">no photo<" in unit_rows([listed("Unseen").pk])


def test_what_its_findings_can_lead_to_stands_below_the_level():
    row = unit_rows([listed("A charger", risk=3, facts={"hazards": ["shock", "fire"]}).pk])
    assert "risk high<br>electric shock, fire<" in row


def test_a_row_that_was_printed_before_shows_what_changed():
    unit = listed("Before")
    assert ">Before<" in unit_rows([unit.pk])
    unit.title = "After"
    enlist(unit)
    assert ">After<" in unit_rows([unit.pk])


def test_what_a_search_found_stands_below_the_title():
    unit = listed("A charger")
    row = unit_rows([unit.pk], {unit.pk: mark_safe("<mark>AB27</mark>X")})
    assert row.index("A charger") < row.index('<p class="snippet"><mark>AB27</mark>X</p>')
    assert "snippet" not in unit_rows([unit.pk])


def test_one_query_whatever_their_number_and_none_while_nothing_changed(django_assert_num_queries):
    pks, state = [listed(f"Unit {number}").pk for number in range(12)], object()
    with django_assert_num_queries(1):
        shown = unit_rows(pks, state=state)
    with django_assert_num_queries(0):
        assert unit_rows(pks, state=state) == shown


def test_memory_is_bounded_and_rows_come_all_the_same(monkeypatch):
    monkeypatch.setattr(rows_of_lists, "KEPT", 3)
    pks, state = [listed(f"Unit {number}").pk for number in range(9)], object()
    for start in range(0, 9, 2):
        assert unit_rows(pks[start:start + 2], state=state).count("<tr") == len(
            pks[start:start + 2])
        assert len(rows_of_lists._kept.rows) <= 4


def test_a_state_that_is_another_is_asked_anew():
    unit = listed("Before")
    unit_rows([unit.pk], state=(state := object()))
    enlist(unit, title="After")
    assert ">Before<" in unit_rows([unit.pk], state=state)
    assert ">After<" in unit_rows([unit.pk])


def test_a_row_is_kept_for_the_language_it_was_printed_in(monkeypatch):
    monkeypatch.setattr(rows_of_lists, "row_markup", lambda row: (get_language(), ""))
    pks, state = [listed("Polyglot").pk], object()
    for code in ("en", "de", "en"):
        with override(code):
            assert unit_rows(pks, state=state) == code
