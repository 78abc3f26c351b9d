"""What a deployment needs, examined a subject a file; each finding in words, with its remedy.

A check is a function under `@examines`. An app adds its own in its room `doctor`, which the
command finds. Where the database does not answer, checks that ask it are passed over.
"""
from core.doctor import (  # noqa: F401  (each registers what it examines)
    audit,
    backups,
    cache,
    clock,
    database,
    disk,
    mail,
    migrations,
    postgresql,
    secrets,
    sqlite,
    static,
    storages,
    web,
    worker,
)
