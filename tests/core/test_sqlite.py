"""Which SQLite engines lose writes, and what the site does about it."""
import pytest
from django.db import connection

from core import sqlite


# Ranges as the engine's own documentation gives them: 3.7.0 to 3.51.2, backports 3.50.7, 3.44.6.
@pytest.mark.parametrize("version", [(3, 7, 0), (3, 40, 1), (3, 44, 5), (3, 50, 6), (3, 51, 2)])
def test_it_names_affected_engines(version):
    assert sqlite.loses_writes(version)


@pytest.mark.parametrize("version", [(3, 44, 6), (3, 50, 7), (3, 51, 3), (3, 53, 4), (3, 6, 23)])
def test_it_passes_fixed_engines(version):
    assert not sqlite.loses_writes(version)


def test_an_affected_engine_gets_the_rollback_journal():
    assert "journal_mode=DELETE" in sqlite.options((3, 40, 1))["init_command"]


def test_a_fixed_engine_gets_the_write_ahead_log_and_full_syncs():
    command = sqlite.options((3, 53, 4))["init_command"]
    assert "journal_mode=WAL" in command and "synchronous=FULL" in command


@pytest.mark.django_db
def test_the_connection_takes_the_write_lock_at_begin_and_waits():
    if connection.vendor != "sqlite":
        return
    options = connection.settings_dict["OPTIONS"]
    assert options["transaction_mode"] == "IMMEDIATE" and options["timeout"] == 20
    with connection.cursor() as cursor:
        assert cursor.execute("PRAGMA synchronous").fetchone()[0] == 2      # FULL
