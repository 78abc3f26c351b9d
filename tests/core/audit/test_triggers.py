"""The database itself keeps every entry as it was written."""
import pytest
from django.core.checks import Tags, run_checks
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection, transaction

from core.audit import triggers
from core.audit.models import Entry
from core.audit.record import record

pytestmark = pytest.mark.django_db


@pytest.fixture
def guarded(db):
    """The triggers, as the migration installs them; gone with the test's transaction."""
    triggers.install(connection)


@pytest.fixture
def entry(alice):
    with transaction.atomic():
        return record(alice, "unit_started", unit=1)


def refused(act):
    with pytest.raises(DatabaseError, match="never changed or removed"), transaction.atomic():
        act()
    return True


def run(statement):
    with connection.cursor() as cursor:
        cursor.execute(statement)


def test_an_entry_is_neither_changed_nor_removed(guarded, entry):
    assert refused(lambda: Entry.objects.update(reason="Another"))
    assert refused(entry.delete)
    assert refused(lambda: run("DELETE FROM audit_entry"))
    assert Entry.objects.get().reason == ""


def test_the_table_is_not_emptied(guarded, entry):
    if connection.vendor == "sqlite":
        pytest.skip("SQLite has no TRUNCATE; DELETE is refused above")
    assert refused(lambda: run("TRUNCATE audit_entry"))


def test_an_entry_is_not_replaced(guarded, entry):
    if connection.vendor != "sqlite":
        pytest.skip("REPLACE is SQLite's; PostgreSQL's ON CONFLICT is an UPDATE")
    columns = ", ".join(field.column for field in Entry._meta.fields)
    assert refused(lambda: run(
        f"INSERT OR REPLACE INTO audit_entry ({columns}) SELECT {columns} FROM audit_entry"))


def test_entries_are_still_added(guarded, entry, alice):
    with transaction.atomic():
        assert record(alice, "unit_started", unit=2).sequence == 2


def test_they_are_put_on_again_and_taken_off(guarded):
    triggers.install(connection)
    assert triggers.missing(connection) == []
    triggers.remove(connection)
    assert len(triggers.missing(connection)) == {"sqlite": 3, "postgresql": 2}[connection.vendor]


def warnings():
    found = run_checks(tags=[Tags.database], databases=["default"])
    return [warning.msg for warning in found if warning.id == "audit.W001"]


def test_the_system_check_names_what_is_missing(guarded):
    assert warnings() == []
    run("DROP TRIGGER audit_entry_kept" + (
        " ON audit_entry" if connection.vendor == "postgresql" else ""))
    assert "lacks the triggers audit_entry_kept" in warnings()[0]


def test_a_trigger_that_is_switched_off_is_missing(guarded):
    if connection.vendor != "postgresql":
        pytest.skip("only PostgreSQL switches triggers off")
    run("ALTER TABLE audit_entry DISABLE TRIGGER audit_entry_kept")
    assert triggers.missing(connection) == ["audit_entry_kept"]


def test_the_command_says_how_long_the_log_is_and_what_to_note_down(guarded, entry, capsys):
    call_command("check_audit")
    assert f"1 entries, each follows from the one before it. To note down elsewhere: " \
           f"1:{entry.hash}" in capsys.readouterr().out


def test_the_command_names_the_first_bad_entry_and_fails(entry):
    Entry.objects.update(reason="Another")
    with pytest.raises(CommandError, match="Entry 1 was changed after it was written"):
        call_command("check_audit")


def test_the_command_warns_of_missing_triggers_and_installs_them(db, capsys):
    call_command("check_audit")
    assert "lacks the triggers audit_entry_kept" in capsys.readouterr().err
    call_command("check_audit", install_triggers=True)
    assert capsys.readouterr().err == "" and triggers.missing(connection) == []


def test_a_log_that_was_rewritten_as_a_whole_does_not_match_what_was_noted(entry):
    noted = f"1:{entry.hash}"
    call_command("check_audit", witness=noted)
    with pytest.raises(CommandError, match="Entry 1 is not the one that was noted down"):
        call_command("check_audit", witness=f"1:{'0' * 64}")
    with pytest.raises(CommandError, match="64 hexadecimal digits"):
        call_command("check_audit", witness="1")
