"""Background jobs: thin, safe to run twice. Queue them with django_q.tasks.async_task."""
from django_q.tasks import async_task

from core.audit.note_end import note_end
from core.buckets import sweep_buckets
from core.mail import send_letters as send_waiting_letters
from core.once import sweep_answers
from core.workers import workers_at_work
from teardowns.models import DataExport, Unit
from teardowns.printouts import make
from teardowns.services import keep_printouts
from teardowns.services.assess_units import assess_units
from teardowns.services.browse import pack_listing as pack_whole_listing
from teardowns.services.claim_review import lapse_idle
from teardowns.services.compare_sisters import compare_sisters as compare_due_sisters
from teardowns.services.export_data import begin_export, export_slice, finish_export
from teardowns.services.find_likenesses import SLICE as LOOKED_AT
from teardowns.services.find_likenesses import find_likenesses as find_due_likenesses
from teardowns.services.hide_now import lapse_hidden as lapse_due_hidings
from teardowns.services.index_likeness import count_words
from teardowns.services.look_again import look_again as ask_searches_again
from teardowns.services.reassess_publications import SLICE, ranges_after, reassess_slice
from teardowns.services.send_digests import send_digests as send_due_digests
from teardowns.services.tidy_search import sweep_terms, sweep_words, tidy_index


def reassess_units(unit_ids):
    """Assess these units as they are now; those that are gone are left out."""
    assess_units(Unit.objects.filter(pk__in=unit_ids).order_by("pk"))


def reassess_all(after_id=0, until_id=None):
    """Assess every unit and every version that stands: after the rules, the reference set or the
    scenarios changed. A range for each worker, in slices that queue the next."""
    if until_id is None:
        for each in ranges_after(after_id, max(1, workers_at_work())):
            async_task("teardowns.jobs.reassess_all", *each)
        return
    last = reassess_slice(after_id, SLICE, until_id)
    if last is not None:
        async_task("teardowns.jobs.reassess_all", last, until_id)


def send_digests():
    """Send the e-mails with what is new; what could not be sent waits for the next run."""
    send_due_digests()


def send_letters():
    """Send the messages that the mail server did not take when they were written."""
    send_waiting_letters()


def lapse_hidden():
    """Show again what was hidden at once and nobody confirmed within a day."""
    lapse_due_hidings()


def lapse_reviews():
    """End reviews in which nothing was decided for a week."""
    lapse_idle()


def look_again(after_id=0):
    """Tell whose saved searches find a unit that they did not find before, a slice at a time."""
    last = ask_searches_again(after_id)
    if last is not None:
        async_task("teardowns.jobs.look_again", last)


def find_likenesses():
    """Look for the like of units that are new in the index, a slice at a time."""
    if find_due_likenesses() == LOOKED_AT:
        async_task("teardowns.jobs.find_likenesses")


def count_likeness_words():
    """Count anew how rare what boards have in common is."""
    count_words()


def compare_sisters():
    """Work out what boards of one family show together, a slice at a time."""
    if compare_due_sisters():
        async_task("teardowns.jobs.compare_sisters")


def sweep_records():
    """Forget answers to forms and limits that are kept for a time only."""
    sweep_answers()
    sweep_buckets()


def pack_listing():
    """Keep the list of all units ready for processes that begin, if something changed."""
    pack_whole_listing()


def note_end_of_log():
    """Write down where the audit log ends, for whoever doubts it later."""
    note_end()


def make_printout(pk):
    """Make a record on paper; one that is made, or gone, is left alone."""
    make.make_printout(pk)


def sweep_printouts():
    """Forget records on paper that nobody wanted for a month."""
    keep_printouts.sweep_printouts()


def tidy_search(after_id=0):
    """Keep the search quick, and forget words that nothing public has any more, in slices."""
    if not after_id:
        tidy_index()
        forget_words()
    last = sweep_terms(after_id)
    if last is not None:
        async_task("teardowns.jobs.tidy_search", last)


def forget_words(after=""):
    """Forget words of the index that nothing public has any more, in slices."""
    last = sweep_words(after)
    if last is not None:
        async_task("teardowns.jobs.forget_words", last)


def export_data():
    """Write everything public as one file, if something changed."""
    export = begin_export()
    if export is not None:
        export_more(export.pk)


def export_more(export_pk, after=0):
    """The next units of an export, a slice at a time; after the last, its file."""
    export = DataExport.objects.filter(pk=export_pk, made_at=None).first()
    if export is None:
        return
    last = export_slice(export, after)
    if last is None:
        finish_export(export)
    else:
        async_task("teardowns.jobs.export_more", export_pk, last)
