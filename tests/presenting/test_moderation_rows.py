"""Which list a record stands in, and what a row says."""
from datetime import UTC, datetime, timedelta
from types import SimpleNamespace

import pytest

from teardowns.presenting.moderation_rows import LISTS, list_of, pile_rows, unit_lists

NOW = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)


def waiting(status="submitted", hours=1, **other):
    return SimpleNamespace(**{
        "pk": 7, "title": "Veltrice VQ-45", "quarantined_at": None, "work_status": status,
        "reviewed": False, "claimed": False, "owner": None, "work_correction": None,
        "since": NOW - timedelta(hours=hours)} | other)


@pytest.mark.parametrize(("unit", "key"), [
    (waiting(), "submitted"), (waiting(claimed=True), "in_review"),
    (waiting("in_review"), "in_review"), (waiting("in_review", reviewed=True), "ready"),
    (waiting("in_review", reviewed=True, claimed=True), "in_review"),
    (waiting("sent_back", reviewed=True), "sent_back"),
    (waiting("published", quarantined_at=NOW), "quarantined"),
    (waiting("sent_back", quarantined_at=NOW), "quarantined")])
def test_each_record_stands_in_one_list(unit, key):
    lists = {one["key"]: one["count"] for one in unit_lists([unit], NOW, 50)}
    assert list_of(unit) == key and lists == {name: int(name == key) for name, *_ in LISTS}


def test_the_age_is_of_the_oldest_and_what_does_not_fit_is_counted():
    units = [waiting(hours=hours) for hours in (5, 80, 2)]
    found = next(one for one in unit_lists(units, NOW, 2) if one["key"] == "submitted")
    assert (found["count"], found["left_out"], len(found["rows"])) == (3, 1, 2)
    assert found["oldest"] == "3 days"          # 80 h are three days and eight hours


def test_a_row_without_an_owner_for_three_days_is_marked_unless_its_author_has_it():
    ready = unit_lists([waiting(hours=80), waiting("sent_back", hours=80)], NOW, 9)
    marked = {one["key"]: row["neglected"] for one in ready for row in one["rows"]}
    assert marked == {"submitted": True, "sent_back": False}


def test_an_empty_pile_has_no_age():
    piles = {key: SimpleNamespace(count=0, oldest=None)
             for key in ("replies", "comments", "parts", "families")}
    rows = pile_rows(piles, {}, NOW)
    assert {row["oldest"] for row in rows} == {"none"} and len(rows) == 4
