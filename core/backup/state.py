"""What a backup says of the moment that it keeps."""
from __future__ import annotations

import subprocess
from typing import Any

from django.conf import settings
from django.db import connection
from django.db.migrations.loader import MigrationLoader

from core.backup.databases import contents
from core.secret import fingerprint

FORMAT = 1


def state_of(cursor: Any) -> dict[str, Any]:
    """Read through a cursor that sees the moment of the copy."""
    cursor.execute("SELECT app, name FROM django_migrations ORDER BY id")
    migrations = [f"{app}.{name}" for app, name in cursor.fetchall()]
    return {"format": FORMAT, "engine": connection.vendor,
            "engine_version": ".".join(map(str, connection.get_database_version())),
            "code": code_version(), "migrations": migrations, "witness": _end_of_log(cursor),
            "key_fingerprint": fingerprint(str(settings.SECRET_KEY)), "contents": contents(cursor)}


def _end_of_log(cursor):
    """Number and hash of the last entry, as `check_audit --witness` takes them."""
    cursor.execute("SELECT sequence, hash FROM audit_head WHERE id = 1")
    found = cursor.fetchone()
    return f"{found[0]}:{found[1]}" if found else ""


def code_version() -> str:
    """The commit that runs, or "" where the code lies without its history."""
    done = subprocess.run(["git", "-C", str(settings.BASE_DIR), "rev-parse", "HEAD"],
                          capture_output=True, text=True, check=False)
    return done.stdout.strip() if done.returncode == 0 else ""


def unknown_migrations(migrations: list[str]) -> list[str]:
    """Those of a backup that this code has not: it is older than what wrote the backup."""
    known = {f"{app}.{name}" for app, name in MigrationLoader(None).disk_migrations}
    return [name for name in migrations if name not in known]
