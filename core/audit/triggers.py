"""What keeps the database itself from changing or losing an entry of the log.

Installed by a migration. A later migration that alters the table installs them anew, for SQLite
alters a table by copying it without its triggers; a system check says when they are missing.
"""
from django.db.backends.base.base import BaseDatabaseWrapper

TABLE = "audit_entry"
REFUSAL = "Entries of the audit log are never changed or removed."

# A row that REPLACE puts out of the way fires no delete trigger in SQLite, hence the third.
SQLITE = {
    "audit_entry_kept": f"BEFORE DELETE ON {TABLE}",
    "audit_entry_unchanged": f"BEFORE UPDATE ON {TABLE}",
    "audit_entry_not_replaced": f"""BEFORE INSERT ON {TABLE} WHEN EXISTS (
        SELECT 1 FROM {TABLE} WHERE id = NEW.id OR sequence = NEW.sequence)""",
}
POSTGRESQL = {
    "audit_entry_kept": f"BEFORE DELETE OR UPDATE ON {TABLE} FOR EACH ROW",
    "audit_entry_not_emptied": f"BEFORE TRUNCATE ON {TABLE} FOR EACH STATEMENT",
}
FUNCTION = f"""CREATE OR REPLACE FUNCTION audit_entry_refuse() RETURNS trigger AS $$
    BEGIN RAISE EXCEPTION '{REFUSAL}' USING ERRCODE = 'integrity_constraint_violation'; END
    $$ LANGUAGE plpgsql"""


def install(connection: BaseDatabaseWrapper) -> None:
    """Put the triggers on the table of entries, which exists; those that are there are renewed."""
    remove(connection)
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute(FUNCTION)
        for name, when in _wanted(connection).items():
            cursor.execute(f"CREATE TRIGGER {name} {when} {_refuse(connection)}")


def remove(connection: BaseDatabaseWrapper) -> None:
    """Take the triggers off the table, where they are."""
    postgresql = connection.vendor == "postgresql"
    of_table = f"ON {TABLE}" if postgresql else ""
    with connection.cursor() as cursor:
        for name in _wanted(connection):
            cursor.execute(f"DROP TRIGGER IF EXISTS {name} {of_table}")
        if postgresql:
            cursor.execute("DROP FUNCTION IF EXISTS audit_entry_refuse()")


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    """Triggers that the table lacks or that are switched off; none where there is no table."""
    if TABLE not in connection.introspection.table_names():
        return []
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SELECT tgname FROM pg_trigger WHERE tgrelid = %s::regclass"
                           " AND tgenabled IN ('O', 'A')", [TABLE])
        else:
            cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'"
                           " AND tbl_name = %s", [TABLE])
        found = {name for name, in cursor.fetchall()}
    return sorted(_wanted(connection).keys() - found)


def _wanted(connection):
    return POSTGRESQL if connection.vendor == "postgresql" else SQLITE


def _refuse(connection):
    if connection.vendor == "postgresql":
        return "EXECUTE FUNCTION audit_entry_refuse()"
    return f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
