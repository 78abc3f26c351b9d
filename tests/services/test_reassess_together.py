"""Several processes assess all units: each unit once, and what is told is done."""
import os

import pytest
from django.db import connection

from teardowns.models import Assessment, Unit
from teardowns.services import reassess_together as service
from teardowns.services.reassess_together import BrokeOff, reassess_together
from tests.cast import person


@pytest.fixture
def units(transactional_db, monkeypatch):
    if connection.vendor == "sqlite" and connection.is_in_memory_db():
        pytest.skip("another process does not see this database")
    monkeypatch.setattr(service, "BLOCK", 1)
    alice = person("alice")
    return [Unit.objects.create(contributor=alice, title=f"Lamplit L{n}") for n in range(5)]


@pytest.mark.parametrize("processes", [1, 2])
def test_all_are_assessed_once_and_what_is_told_comes_in_order(units, processes):
    told = list(reassess_together(0, len(units), processes))
    assert told == sorted(told) and told[-1] > units[-1].pk
    assert sorted(Assessment.objects.values_list("unit", flat=True)) == [u.pk for u in units]


def test_a_process_that_dies_is_told_of_and_what_is_done_stays(units, monkeypatch):
    inner = service.reassess_slice

    def dies(after, *asked):
        if after == units[2].pk:
            os._exit(9)
        return inner(after, *asked)

    monkeypatch.setattr(service, "reassess_slice", dies)
    with pytest.raises(BrokeOff):
        list(reassess_together(0, len(units), 2))
    known = set(Assessment.objects.values_list("unit", flat=True))
    assert units[1].pk in known and units[3].pk not in known      # both of the one that died


def test_a_process_ends_when_the_one_that_began_it_is_gone(units, monkeypatch):
    ended = []
    monkeypatch.setattr(os, "_exit", ended.append)
    monkeypatch.setattr(service, "reassess_slice", lambda *asked: None)
    service._reassess((0, 1), os.getppid())
    service._reassess((0, 1), os.getppid() + 1)
    assert ended == [1]
