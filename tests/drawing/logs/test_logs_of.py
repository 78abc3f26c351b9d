"""Logs of the demo are made of what the documents record, and are recognised as that."""
import pytest

from teardowns.drawing.logs.dialects import DIALECTS
from teardowns.drawing.logs.logs_of import logs_of
from teardowns.logs.detect import detect_layout
from tests.drawing.units import NAMES, demo

LOGGED = [name for name in NAMES if logs_of(demo(name[:2]))]


def test_most_demo_units_have_logs():
    assert len(LOGGED) >= 25


@pytest.mark.parametrize("name", LOGGED)
def test_every_log_is_recognised_as_what_it_is(name):
    for log in logs_of(demo(name[:2])):
        if log.kind == "waveform":
            continue                      # a scope does not say what its probe was at
        layout = detect_layout(log.data[:200_000], name=log.name).layout
        found = [column.role for column in layout.columns]
        assert found == [role for role, _ in log.roles], log.key


def test_the_same_document_gives_the_same_bytes():
    first, again = (logs_of(demo(LOGGED[0][:2])) for _ in range(2))
    assert [log.data for log in first] == [log.data for log in again]


def test_all_dialects_are_written():
    heads = {log.data[:40] for name in LOGGED for log in logs_of(demo(name[:2]))
             if log.kind == "load_sweep"}
    assert len(heads) >= len(DIALECTS)


def test_a_unit_without_measurements_has_no_logs():
    bare = {**demo(LOGGED[0][:2]), "measurements": []}
    assert logs_of(bare) == []
