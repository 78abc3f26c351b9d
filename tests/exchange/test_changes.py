"""Whatever differs between two documents is found, named, and nothing else is."""
from copy import deepcopy

import pytest
from hypothesis import HealthCheck, given, settings

from teardowns.exchange.changes import ADDED, CHANGED, LISTS, REMOVED, changes
from teardowns.exchange.document import read_document
from teardowns.exchange.rules import IDENTITY
from teardowns.exchange.schema import row_schema, unit_schema
from tests.exchange.small import small
from tests.exchange.strategies import documents
from tests.exchange.whole_document import WHOLE, whole_document

FEW = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
UNIT_FIELDS = sorted(set(unit_schema()["properties"]["unit"]["properties"]) - {"status"})
ROW_FIELDS = [(name, field) for name in LISTS for field in row_schema(name)["properties"]]
STATED = [(name, field) for name, field in ROW_FIELDS
          if field in WHOLE[name][0] and field not in ("sha256", IDENTITY[name])]


def whole():
    return read_document(whole_document())


def another(value):
    """Something else of the same type."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return value + 1
    if isinstance(value, str):
        return f"{value}x"
    return [*value, "x"] if isinstance(value, list) else value | {"x": 1.0}


def applied(was, found):
    """The document that comes of one when all that was found is done to it."""
    made = deepcopy(was)
    _set(made["unit"], found.unit)
    for one in found.rows:
        identity = "sha256" if one.list in ("photos", "recordings") else IDENTITY[one.list]
        rows = {row[identity]: row for row in made[one.list]}
        rows.setdefault((one.now or one.was)[identity], {})
        _set(rows[(one.now or one.was)[identity]], one.fields)
        if one.kind == REMOVED:
            del rows[one.was[identity]]
        made[one.list] = list(rows.values())
    return made


def _set(row, fields):
    for field in fields:
        row.pop(field.name, None)
        if field.now is not None:
            row[field.name] = field.now


def unordered(document):
    """The document without the order of its rows and without its stage."""
    plain = {name: sorted(document[name], key=lambda row: row[IDENTITY[name]]) for name in LISTS}
    return plain | {"unit": document["unit"] | {"status": ""}}


@FEW
@given(documents())
def test_a_document_does_not_differ_from_itself(source):
    document = read_document(source)
    assert not changes(document, deepcopy(document))


@FEW
@given(documents(), documents())
def test_doing_what_was_found_makes_one_document_of_the_other(one, other):
    was, now = read_document(one), read_document(other)
    assert unordered(applied(was, changes(was, now))) == unordered(now)


@FEW
@given(documents(), documents())
def test_the_way_back_is_the_way_there_turned_round(one, other):
    was, now = read_document(one), read_document(other)
    there = {(row.list, f.name, str(f.was), str(f.now)) for row in changes(was, now).rows
             for f in row.fields}
    back = {(row.list, f.name, str(f.now), str(f.was)) for row in changes(now, was).rows
            for f in row.fields}
    assert there == back


@pytest.mark.parametrize("field", UNIT_FIELDS)
def test_an_edit_of_a_unit_field_is_found_and_named(field):
    now = whole()
    now["unit"][field] = another(now["unit"][field])
    found = changes(whole(), now)
    assert [one.name for one in found.unit] == [field] and found.rows == ()


@pytest.mark.parametrize("name, field", ROW_FIELDS)
def test_an_edit_of_any_field_of_any_row_is_found_and_named(name, field):
    was, now = whole(), whole()
    row = now[name][0]
    row[field] = another(row.get(field, ""))
    if field in ("sha256", IDENTITY[name]) and not (field == "key" and "sha256" in row):
        assert {one.kind for one in changes(was, now).of(name)} == {ADDED, REMOVED}
        return
    one, = (one for one in changes(was, now).of(name) if one.kind == CHANGED)
    assert [each.name for each in one.fields] == [field]


@pytest.mark.parametrize("name, field", STATED)
def test_a_fact_that_was_known_and_is_not_any_more_is_found(name, field):
    was, now = whole(), whole()
    del now[name][0][field]
    one, = changes(was, now).of(name)
    assert [(each.name, each.now) for each in one.fields] == [(field, None)]


def test_what_a_float_loses_on_its_way_through_a_file_is_no_change():
    was, now = whole(), whole()
    now["measurements"][0]["value"] *= 1 + 1e-12
    now["insulation"][0]["slot"]["width"] *= 1 - 1e-12
    assert not changes(was, now)


def test_a_millionth_is_a_change():
    was, now = whole(), whole()
    now["measurements"][0]["value"] *= 1 + 1e-6
    assert changes(was, now)


def test_zero_is_not_unknown():
    was = small(measurements=[{"quantity": "overcurrent_point", "value": 0.0}])
    now = small(measurements=[{"quantity": "overcurrent_point", "state": "not_found"}])
    one, = changes(was, now).rows
    assert [(each.name, each.was, each.now) for each in one.fields] == [
        ("state", "recorded", "not_found"), ("value", 0.0, None)]


def test_the_order_of_rows_and_the_stage_of_the_unit_say_nothing():
    was, now = whole(), whole()
    now["claims"].reverse()
    now["unit"]["status"] = "published"
    assert not changes(was, now)


def test_a_photo_is_the_same_under_another_key():
    was, now = whole(), whole()
    now["photos"][0]["key"] = "board-front"
    one, = changes(was, now).of("photos")
    assert (one.kind, one.key) == (CHANGED, "board-front")


def test_a_row_that_names_a_key_which_another_file_has_now_has_changed():
    was, now = whole(), whole()
    now["photos"][0]["sha256"] = "ef" * 32
    found = changes(was, now)
    assert [one.kind for one in found.of("photos")] == [REMOVED, ADDED]
    assert [one.name for one in found.of("ports")[0].fields] == ["photo"]


def test_a_review_alone_is_told_apart():
    was, now = whole(), whole()
    now["ports"][0]["review_state"] = "disputed"
    one, = changes(was, now).rows
    assert one.is_review_only
    now["ports"][0]["label"] = "C2"
    one, = changes(was, now).rows
    assert not one.is_review_only


def test_what_was_removed_stands_where_it_stood():
    def rows(*keys):
        return small(measurements=[{"key": key, "quantity": "mass_total", "value": 0.05,
                                    "note": note} for key, note in keys])

    was, now = rows(("a", ""), ("b", ""), ("c", "")), rows(("a", "x"), ("c", "x"), ("d", "x"))
    assert [one.key for one in changes(was, now).rows] == ["a", "b", "c", "d"]
