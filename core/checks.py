"""System checks that Django does not have: what an operator must hear before the site runs."""
import sqlite3

from django.conf import settings
from django.core.checks import Tags, Warning, register

from core import sqlite


@register(Tags.database)
def sqlite_keeps_what_it_acknowledged(app_configs, **kwargs):
    """Says so when the SQLite engine in use has the write-ahead-log reset race."""
    database = settings.DATABASES["default"]
    if not database["ENGINE"].endswith("sqlite3"):
        return []
    if not sqlite.loses_writes(sqlite3.sqlite_version_info):
        return []
    return [
        Warning(
            f"SQLite {sqlite3.sqlite_version} can lose committed data with a write-ahead log; "
            "the rollback journal is used instead, which is safe but slower.",
            hint="Install the pysqlite3 package of requirements.txt, or use PostgreSQL.",
            id="core.W001",
        )
    ]
