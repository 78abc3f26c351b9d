"""Background jobs: thin, safe to run twice. Queue them with django_q.tasks.async_task."""
from django_q.tasks import async_task

from teardowns.models import Unit
from teardowns.services.assess_units import assess_units

SLICE = 50          # units a job: short enough to be repeated, and for others to write in between


def reassess_units(unit_ids):
    """Assess these units as they are now; those that are gone are left out."""
    assess_units(Unit.objects.filter(pk__in=unit_ids).order_by("pk"))


def reassess_all(after_id=0):
    """Assess every unit, a slice at a time, each slice queueing the next."""
    units = list(Unit.objects.filter(pk__gt=after_id).order_by("pk")[:SLICE])
    assess_units(units)
    if len(units) == SLICE:
        async_task("teardowns.jobs.reassess_all", units[-1].pk)
