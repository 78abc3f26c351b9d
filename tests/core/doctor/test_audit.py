import pytest
from django.db import connection, transaction

from core.audit import triggers
from core.audit.models import Entry
from core.audit.record import record
from tests.core.doctor.found import bad

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def log():
    """Tables of tests have no triggers: they are put on, and taken off again."""
    triggers.install(connection)
    with transaction.atomic():
        record(None, "scenarios_kept")
    yield
    triggers.remove(connection)


def test_a_log_that_holds_is_fine(log):
    assert bad("audit") == ""


def test_an_entry_changed_past_the_site_is_a_fault(log):
    triggers.remove(connection)
    Entry.objects.update(reason="other")
    assert "Entry 1 of the log was changed" in bad("audit")


def test_a_table_without_triggers_is_a_fault(log):
    triggers.remove(connection)
    assert "lets entries of the log be changed" in bad("audit")
