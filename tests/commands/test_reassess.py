"""manage.py reassess: everything under the rules in force, told in lines."""
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from teardowns.management.commands import reassess
from teardowns.models import Publication
from teardowns.services import reassess_together
from tests.corrections import GAP, public_unit
from tests.services.test_reassess_publications import another_rulebook

pytestmark = pytest.mark.django_db


@pytest.fixture
def units(alice):
    return [public_unit(alice), public_unit(alice, [GAP],
                                            uid="6f1d7c1e-5f0a-4c39-9d51-0d3c5a5b7e12")]


def told(*args):
    out = StringIO()
    call_command("reassess", *args, stdout=out)
    return out.getvalue()


def standing():
    return set(Publication.objects.values_list("standing__rulebook", flat=True))


def test_it_says_how_far_it_came_and_what_moved(units, monkeypatch):
    rules = another_rulebook(monkeypatch, scenarios=())
    monkeypatch.setattr(reassess, "active_rulebook", lambda: rules)
    monkeypatch.setattr(reassess_together, "BLOCK", 1)
    text = told()
    assert f"1 of 2 done, up to unit {units[0].pk}." in text
    assert f"under rulebook {rules.version}; the words or the level of 1 moved." in text
    assert standing() == {rules.version}


def test_it_goes_on_after_a_unit(units, monkeypatch):
    another_rulebook(monkeypatch)
    told("--after", str(units[0].pk))
    assert len(standing()) == 2


def test_queued_it_leaves_the_work_to_the_workers(units, monkeypatch):
    queued = []
    monkeypatch.setattr(reassess, "async_task", lambda *call: queued.append(call))
    assert "Queued" in told("--queue")
    assert queued == [("teardowns.jobs.reassess_all", 0)]


@pytest.mark.parametrize("count", ["0", "-3"])
def test_less_than_one_process_is_refused(count):
    with pytest.raises(CommandError, match="1 or more"):
        told(f"--processes={count}")
