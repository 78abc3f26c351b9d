"""Constraints that come together: each holds, and SQLite writes the table anew a single time."""
import pytest
from django.apps import apps
from django.db import connection, models
from django.db.migrations.state import ProjectState
from django.test.utils import CaptureQueriesContext

from core.migrating import AddConstraints

pytestmark = pytest.mark.django_db(transaction=True)
NAMES = ("reply_of_small_number", "reply_of_no_less_than_nought")


def constraints():
    return [models.CheckConstraint(condition=models.Q(pk__lt=2**40), name=NAMES[0]),
            models.CheckConstraint(condition=models.Q(pk__gt=-1), name=NAMES[1])]


def there():
    with connection.cursor() as cursor:
        found = connection.introspection.get_constraints(cursor, "teardowns_savedreply")
    return {name for name in NAMES if name in found}


def test_they_are_added_and_taken_back_together():
    before = ProjectState.from_apps(apps)
    step, after = AddConstraints("SavedReply", constraints()), before.clone()
    step.state_forwards("teardowns", after)
    with CaptureQueriesContext(connection) as asked, connection.schema_editor() as editor:
        step.database_forwards("teardowns", editor, before, after)
    try:
        assert there() == set(NAMES)
        anew = [query for query in asked if "CREATE TABLE" in query["sql"]]
        assert len(anew) == (connection.vendor == "sqlite")
    finally:
        with connection.schema_editor() as editor:
            step.database_backwards("teardowns", editor, after, before)
    assert there() == set()
