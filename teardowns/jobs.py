"""Background jobs: thin, safe to run twice. Queue them with django_q.tasks.async_task."""
from django_q.tasks import async_task

from core.buckets import sweep_buckets
from core.once import sweep_answers
from teardowns.models import Unit
from teardowns.services.assess_units import assess_units
from teardowns.services.claim_review import lapse_idle
from teardowns.services.hide_now import lapse_hidden as lapse_due_hidings
from teardowns.services.reassess_publications import SLICE, reassess_slice
from teardowns.services.send_digests import send_digests as send_due_digests


def reassess_units(unit_ids):
    """Assess these units as they are now; those that are gone are left out."""
    assess_units(Unit.objects.filter(pk__in=unit_ids).order_by("pk"))


def reassess_all(after_id=0):
    """Assess every unit and every version that stands, a slice at a time, each slice queueing the
    next: after the rules, the reference set or the scenarios changed."""
    last = reassess_slice(after_id, SLICE)
    if last is not None:
        async_task("teardowns.jobs.reassess_all", last)


def send_digests():
    """Send the e-mails with what is new; what could not be sent waits for the next run."""
    send_due_digests()


def lapse_hidden():
    """Show again what was hidden at once and nobody confirmed within a day."""
    lapse_due_hidings()


def lapse_reviews():
    """End reviews in which nothing was decided for a week."""
    lapse_idle()


def sweep_records():
    """Forget answers to forms and limits that are kept for a time only."""
    sweep_answers()
    sweep_buckets()
