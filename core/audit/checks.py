"""The system check that says when the database would let somebody change the log."""
from django.core.checks import Tags, Warning, register
from django.db import connections

from core.audit import triggers


@register(Tags.database)
def log_is_guarded(app_configs, databases=None, **kwargs):
    """A warning for each database whose table of entries lacks a trigger."""
    return [
        Warning(
            f"The database “{alias}” lets entries of the audit log be changed: it lacks the "
            f"triggers {', '.join(lacking)}.",
            hint="Run `manage.py migrate`; if that changes nothing, "
                 "`manage.py check_audit --install-triggers`.",
            id="audit.W001",
        )
        for alias in databases or [] if (lacking := triggers.missing(connections[alias]))
    ]
