"""The settings under which PostgreSQL keeps what it acknowledged, and what our account may do."""
from django.db import connection

from core.doctor.findings import examines, fault, good, note, warning

LOSES = {       # setting → what goes wrong where it is off
    "fsync": "a crash of the machine can destroy the database",
    "full_page_writes": "a crash of the machine can leave half-written pages",
    "synchronous_commit": "a crash can lose what was acknowledged in the last moments",
}
OLDEST = (14,)


def setting(name):
    with connection.cursor() as cursor:
        cursor.execute("SELECT current_setting(%s)", [name])
        return cursor.fetchone()[0]


def answer(sql, *values):
    with connection.cursor() as cursor:
        cursor.execute(sql, values)
        return cursor.fetchone()[0]


@examines("postgresql", asks_database=True)
def version_is_supported():
    if connection.vendor != "postgresql":
        return
    if connection.get_database_version() < OLDEST:
        yield fault("This PostgreSQL is older than 14, which the site needs.",
                    "Upgrade the server; a dump of the old one restores into the new one.")


@examines("postgresql", asks_database=True)
def commits_reach_the_disk():
    if connection.vendor != "postgresql":
        return
    off = [name for name in LOSES if setting(name) == "off"]
    for name in off:
        yield fault(f"{name} is off: {LOSES[name]}.",
                    f"Set {name} = on in postgresql.conf (or for this account) and reload.")
    if not off:
        yield good("Each commit reaches the disk before it is acknowledged.")


@examines("postgresql", asks_database=True)
def pages_have_checksums():
    if connection.vendor != "postgresql":
        return
    if setting("data_checksums") != "on":
        yield warning("The server keeps no checksums, so a damaged page of its files is read as if "
                      "it were whole.", "Stop the server, run pg_checksums --enable, start it.")
    else:
        yield good("The server's files carry checksums.")


@examines("postgresql", asks_database=True)
def text_is_unicode():
    if connection.vendor != "postgresql":
        return
    if (encoding := setting("server_encoding")) != "UTF8":
        yield fault(f"The database stores text as {encoding}.",
                    "Make a database with ENCODING 'UTF8' and restore a backup into it.")


@examines("postgresql", asks_database=True)
def the_account_cannot_rewrite_the_log():
    """Triggers refuse as well; who owns the table can drop them."""
    if connection.vendor != "postgresql":
        return
    if answer("SELECT to_regclass('audit_entry') IS NULL"):
        return
    if answer("SELECT rolsuper FROM pg_roles WHERE rolname = current_user"):
        yield warning("This account is a superuser of the server.",
                      "Give web and workers an account of their own: fixtures/deploy/grants.sql.")
    elif answer("SELECT pg_has_role(current_user, relowner, 'MEMBER') FROM pg_class"
                " WHERE oid = 'audit_entry'::regclass"):
        yield note("This account owns the tables and can change the schema, as migrations need.",
                   "Web and workers do without: fixtures/deploy/grants.sql.")
    elif answer("SELECT has_table_privilege('audit_entry', 'UPDATE') OR"
                " has_table_privilege('audit_entry', 'DELETE')"):
        yield warning("This account may change entries of the log.",
                      "Run fixtures/deploy/grants.sql again; it is safe to repeat.")
    else:
        yield good("This account can change neither the schema nor entries of the log.")


@examines("postgresql", asks_database=True)
def connections_are_left():
    if connection.vendor != "postgresql":
        return
    used = answer("SELECT count(*) FROM pg_stat_activity WHERE backend_type = 'client backend'")
    most = int(setting("max_connections"))
    if used > 0.8 * most:
        yield warning(f"{used} of {most} connections of the server are in use.",
                      "Lower the number of threads, put a pool before the server, or raise "
                      "max_connections.")
    else:
        yield good(f"{used} of {most} connections of the server are in use.")
