"""After the rules changed: every version that stands is told by the rules in force, once."""
import json

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from teardowns.exchange.digest import digest
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.exchange.verdict import verdicts
from teardowns.models import Assessment, Publication, StandingChange, Unit
from teardowns.services import foresee_assessments
from teardowns.services import reassess_publications as service
from teardowns.services.active_rulebook import active_rulebook
from teardowns.services.export_unit import unit_document
from teardowns.services.reassess_publications import reassess_publications, reassess_slice
from tests.corrections import GAP, corrected, public_unit, write
from tests.published import published

UIDS = [f"6f1d7c1e-5f0a-4c39-9d51-0d3c5a5b7e{n}" for n in (11, 12, 13)]


@pytest.fixture
def units(alice):
    return [public_unit(alice, uid=uid) for uid in UIDS]


def another_rulebook(monkeypatch, name="risk9-0a1b2c3d", scenarios=None):
    """The same rules under another name, with other scenarios where some are given."""
    own = active_rulebook()
    other = own.with_scenarios(own.scenarios if scenarios is None else scenarios, name)
    for module in ("reassess_publications", "assess_units"):
        monkeypatch.setattr(f"teardowns.services.{module}.active_rulebook", lambda: other)
    return other


def standing():
    return list(Publication.objects.order_by("pk").values_list(
        "standing__rulebook", "standing_all__rulebook"))


def test_versions_stand_under_the_rules_in_force_and_keep_what_they_said(units, monkeypatch):
    before = list(Publication.objects.order_by("pk").values("assessment", "assessment_all",
                                                            "document", "frozen"))
    rules = another_rulebook(monkeypatch)
    assert reassess_slice() is None
    assert standing() == [(rules.version, rules.version)] * 3
    assert before == list(Publication.objects.order_by("pk").values(
        "assessment", "assessment_all", "document", "frozen"))


def test_a_second_run_does_nothing(units, monkeypatch):
    another_rulebook(monkeypatch)
    reassess_slice()
    known = Assessment.objects.count(), StandingChange.objects.count()
    assert reassess_publications(unit.publication_id for unit in units) == 0
    reassess_slice()
    assert (Assessment.objects.count(), StandingChange.objects.count()) == known


def test_a_second_run_keeps_nobody_waiting(units, monkeypatch):
    another_rulebook(monkeypatch)
    reassess_slice()
    monkeypatch.setattr(service, "_write_back", lambda *asked: pytest.fail("it took the lock"))
    reassess_slice()


def test_nothing_is_computed_while_units_are_locked(units, monkeypatch):
    another_rulebook(monkeypatch)
    inside, inner = [], foresee_assessments.verdicts

    def verdicts(documents, *asked):
        inside.append((len(documents) > 0, len(connection.savepoint_ids)))
        return inner(documents, *asked)

    monkeypatch.setattr(foresee_assessments, "verdicts", verdicts)
    outside = len(connection.savepoint_ids)
    reassess_slice()
    assert (True, outside) in inside
    assert all(depth == outside for some, depth in inside if some)


def test_what_changed_while_it_was_computed_is_seen_behind_the_lock(units, bob, monkeypatch):
    unit = units[0]
    corrected(unit, bob)
    rules, inner = another_rulebook(monkeypatch), service._write_back

    def write_back(*asked):
        monkeypatch.setattr(service, "_write_back", inner)
        write(unit)                                  # somebody else was quicker
        inner(*asked)

    monkeypatch.setattr(service, "_write_back", write_back)
    reassess_slice()
    newest = unit.assessments.filter(confirmed_only=False).first()
    document = unit_document(Unit.objects.get(pk=unit.pk))
    assert (newest.rulebook, newest.evidence_digest) == (rules.version, digest(document))


def test_queries_do_not_grow_with_the_number_of_units(units, monkeypatch):
    another_rulebook(monkeypatch)
    with CaptureQueriesContext(connection) as of_one:
        last = reassess_slice(size=1)
    with CaptureQueriesContext(connection) as of_two:
        reassess_slice(last)
    assert len(of_two) == len(of_one)


def test_reports_are_those_that_each_unit_gets_alone(units, monkeypatch):
    another_rulebook(monkeypatch)
    reassess_slice()
    for publication in Publication.objects.select_related("standing"):
        alone, = verdicts([full(publication.document, unit_schema())], True, active_rulebook())
        kept = publication.standing.payload | {"rulebook": alone["rulebook"]}
        # PostgreSQL keeps keys in an order of its own.
        assert json.dumps(kept, sort_keys=True) == json.dumps(alone, sort_keys=True)


def test_ranges_for_several_processes_leave_no_unit_out(units):
    first, second, third = (unit.pk for unit in units)
    assert service.ranges_after(0, 1) == [(0, service.BEYOND)]
    assert service.ranges_after(0, 2) == [(0, first), (first, service.BEYOND)]
    assert service.ranges_after(0, 9) == [
        (0, first), (first, second), (second, service.BEYOND)]
    assert service.ranges_after(third, 2) == [(third, service.BEYOND)]


def test_a_run_that_broke_off_goes_on_where_it_was(units, monkeypatch):
    rules = another_rulebook(monkeypatch)
    last = reassess_slice(size=2)
    assert last == units[1].pk
    assert [one for one, _ in standing()].count(rules.version) == 2
    assert reassess_slice(last, size=2) is None
    assert standing() == [(rules.version, rules.version)] * 3


def test_a_slice_is_kept_whole_or_not_at_all(units, monkeypatch):
    before = standing()
    another_rulebook(monkeypatch)

    def breaks(*asked):
        raise OSError("no room")

    monkeypatch.setattr(service, "list_units", breaks)
    with pytest.raises(OSError):
        reassess_slice()
    assert standing() == before and StandingChange.objects.count() == 0


def test_an_older_version_keeps_what_it_was_told_by(units, monkeypatch):
    newer = published(Unit.objects.get(pk=units[0].pk))
    older = units[0].publication
    rules = another_rulebook(monkeypatch)
    reassess_slice()
    older.refresh_from_db()
    newer.refresh_from_db()
    assert older.standing == older.assessment and newer.standing.rulebook == rules.version


def test_a_level_that_moved_is_written_down_once_with_both(alice, units, monkeypatch):
    unit = public_unit(alice, gaps=[GAP], uid=UIDS[0][:-1] + "9")
    was = unit.publication.standing.payload["safety"]["level"]
    rules = another_rulebook(monkeypatch, scenarios=())        # none is triggered any more
    for _ in range(2):
        reassess_slice()
    change, = StandingChange.objects.all()
    assert (change.publication, was != "") == (unit.publication, True)
    assert (change.levels, change.words, change.rulebook) == ([was, ""], [], rules.version)
    assert (change.was.rulebook, change.now.rulebook) == (active_rulebook().version, rules.version)


def test_rules_that_move_no_word_leave_no_line(units, monkeypatch):
    another_rulebook(monkeypatch)
    reassess_slice()
    assert StandingChange.objects.count() == 0


def test_rows_that_are_being_corrected_keep_their_own_assessment_as_the_newest(
        units, bob, monkeypatch):
    unit = units[0]
    corrected(unit, bob)
    write(unit)
    rules = another_rulebook(monkeypatch)
    reassess_slice()
    unit.publication.refresh_from_db()
    newest = unit.assessments.filter(confirmed_only=False).first()
    assert newest.rulebook == rules.version
    assert newest.evidence_digest != unit.publication.standing_all.evidence_digest


def test_a_document_of_an_earlier_form_is_read_with_the_defaults_of_today(units, monkeypatch):
    publication = units[0].publication
    del publication.document["measurements"][0]["instrument"]
    publication.save()
    rules = another_rulebook(monkeypatch)
    reassess_publications([publication.pk])
    publication.refresh_from_db()
    assert publication.standing.rulebook == rules.version
