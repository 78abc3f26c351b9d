"""While tables are altered, nobody waits long: a step that does not get its lock gives up.

On PostgreSQL a step that waits for a lock has everybody else wait behind it. So it waits for some
seconds, fails as a whole, and is begun again. (SQLite has one writer; its wait is in the settings.)
"""
from django.db import connections
from django.db.migrations.operations.base import Operation

LONGEST = "4s"


class AddConstraints(Operation):
    """Several constraints of one table: SQLite writes the table anew for each, here once for all,
    while nobody else can write."""

    reversible = True

    def __init__(self, model_name, constraints):
        self.model_name, self.constraints = model_name, constraints

    def describe(self):
        return f"Create {len(self.constraints)} constraints on model {self.model_name}"

    def state_forwards(self, app_label, state):
        for constraint in self.constraints:
            state.add_constraint(app_label, self.model_name.lower(), constraint)

    def database_forwards(self, app_label, schema_editor, from_state, to_state):
        self._alter(app_label, schema_editor, to_state, schema_editor.add_constraint)

    def database_backwards(self, app_label, schema_editor, from_state, to_state):
        self._alter(app_label, schema_editor, to_state, schema_editor.remove_constraint)

    def _alter(self, app_label, schema_editor, state, one_by_one):
        model = state.apps.get_model(app_label, self.model_name)
        if not self.allow_migrate_model(schema_editor.connection.alias, model):
            return
        if schema_editor.connection.vendor == "sqlite":
            schema_editor._remake_table(model)
            return
        for constraint in self.constraints:
            one_by_one(model, constraint)


def wait_briefly(using="default", **kwargs):
    """Before `migrate`."""
    _say(using, f"SET lock_timeout = '{LONGEST}'")


def wait_as_ever(using="default", **kwargs):
    """After it."""
    _say(using, "RESET lock_timeout")


def _say(using, words):
    if connections[using].vendor == "postgresql":
        with connections[using].cursor() as cursor:
            cursor.execute(words)
