"""A release can be put back: former code goes on with tables that a later migration altered."""
from django.apps import apps
from django.db.migrations import operations as steps
from django.db.migrations.loader import MigrationLoader

# Before these nobody asked it; by then the tables of a first release stand.
ASKED_AFTER = {"accounts": "0003", "audit": "0002", "core": "0001", "teardowns": "0014"}
# What takes away what former code reads comes a release later than the code that stopped reading
# it: named here, "teardowns.0020", with the release in which that was.
TAKEN_LATER: dict[str, str] = {}
TAKES = (steps.RemoveField, steps.DeleteModel, steps.RenameField, steps.RenameModel,
         steps.AlterModelTable)


def migrations():
    for (app, name), migration in MigrationLoader(None).disk_migrations.items():
        if app in ASKED_AFTER and name[:4] > ASKED_AFTER[app] and not migration.replaces:
            yield f"{app}.{name[:4]}", migration


def test_every_app_of_ours_is_asked():
    ours = {config.label for config in apps.get_app_configs()
            if config.name.split(".")[0] in ("core", "teardowns")}
    assert ours == set(ASKED_AFTER)


def test_former_code_can_write_rows_without_a_new_column():
    """It does not name the column: so it may be empty, or the database itself knows its value."""
    for name, migration in migrations():
        for step in migration.operations:
            if isinstance(step, steps.AddField):
                field = step.field
                assert field.null or field.has_db_default() or field.many_to_many, (
                    f"{name}: give {step.model_name}.{step.name} a db_default, or null=True")


def test_nothing_is_taken_away_that_former_code_reads():
    for name, migration in migrations():
        takes = [step for step in migration.operations if isinstance(step, TAKES)]
        assert not takes or name in TAKEN_LATER, f"{name}: {takes[0]}"
