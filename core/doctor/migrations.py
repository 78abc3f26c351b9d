"""Whether the database has the shape that this code expects."""
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from core.doctor.findings import examines, fault, good, warning


def unapplied():
    """Names of migrations that this code has and the database has not."""
    executor = MigrationExecutor(connection)
    plan = executor.migration_plan(executor.loader.graph.leaf_nodes())
    return [f"{migration.app_label}.{migration.name}" for migration, _ in plan]


def unknown(loader=None):
    """Names of migrations of our apps that the database has and this code has not."""
    loader = loader or MigrationExecutor(connection).loader
    return sorted(f"{app}.{name}" for app, name in loader.applied_migrations
                  if app in loader.migrated_apps and (app, name) not in loader.disk_migrations
                  and not _was_replaced(loader, app, name))


def _was_replaced(loader, app, name):
    return any((app, name) in migration.replaces for migration in loader.disk_migrations.values())


@examines("migrations", asks_database=True)
def migrations_are_applied():
    if missing := unapplied():
        yield fault(f"{len(missing)} migrations are not applied, {missing[0]} the first.",
                    "Make a backup, then run manage.py migrate.")
    if later := unknown():
        yield warning(f"The database is newer than this code: {later[-1]} is not known here.",
                      "Run the release that wrote it, or restore the backup made before it.")
    if not missing and not later:
        yield good("All migrations are applied.")
