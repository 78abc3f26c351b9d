"""One unit: the answer, then its proof, and what others say of it."""
from django.http import Http404
from django.shortcuts import render

from teardowns import access
from teardowns.models import Status, Unit
from teardowns.presenting.discussion_counts import discussion_counts, talk_of
from teardowns.presenting.evidence_called import called_in
from teardowns.presenting.licence_lines import licence_line
from teardowns.presenting.now_and_then import now_and_then
from teardowns.presenting.photo_sheet import gallery
from teardowns.presenting.replies_shown import unit_replies
from teardowns.presenting.share_words import page_about
from teardowns.presenting.sister_boards import alike_units, sister_boards
from teardowns.presenting.unit_sheet import unit_sheet
from teardowns.presenting.version_line import version_line
from teardowns.services.confirmations import confirmations_shown
from teardowns.services.shown_unit import WORKING, shown_unit
from teardowns.views.kept_pages import kept_with_unit
from teardowns.views.tombstone import tombstone


@kept_with_unit
def unit_detail(request, pk):
    """The version that stands; before there is one, the rows as they are."""
    return unit_page(request, pk)


@kept_with_unit
def unit_version(request, pk, number):
    """One version at its permanent address, as it was published."""
    return unit_page(request, pk, str(number))


def unit_working_copy(request, pk):
    """What the author of a correction wrote so far, for who checks it."""
    return unit_page(request, pk, WORKING)


def unit_page(request, pk, version=""):
    try:
        shown = shown_unit(request.user, pk, version, Unit.objects.with_logs().with_licence())
    except Http404:
        return gone_or_raise(request, pk)
    if shown.live.status == Status.WITHDRAWN:
        return gone_or_raise(request, pk)
    return render(request, "teardowns/unit_detail.html", page_of(request, shown))


def gone_or_raise(request, pk):
    """What stands in the place of a withdrawn unit; of any other there is nothing."""
    stone = tombstone(request, pk)
    if stone is None:
        raise Http404("No such unit.")
    return stone


def page_of(request, shown):
    said = discussion_counts(shown.live)
    sheet = unit_sheet(shown.unit, shown.assessment, shown.rows, confirmations_shown(shown),
                       talk_of(shown.live, said))
    reports = [one and one.payload for one in (shown.assessment, shown.with_rest)]
    return {
        **sheet, "gallery": gallery(shown.live, shown.thawed and shown.thawed.rows["photo"]),
        "logs": logs_of(shown), "said": said[""],
        "version": version_line(shown.live, shown.publication, shown.newest, *reports),
        "foot": [*sheet["foot"], ("Terms", licence_line(shown.live))],
        "share": shared(shown),
        "now_and_then": shown.is_newest and now_and_then(shown.publication),
        **unit_replies(shown.live, called(shown)), **offered(request.user, shown),
        **boards_beside(shown),
    }


def boards_beside(shown):
    """Of the version that stands alone: what other boards say never belongs to a version."""
    publication = shown.publication if shown.is_newest and shown.live.is_public else None
    return {"alike": alike_units(publication), "sisters": sister_boards(publication)}


def shared(shown):
    """For the head of the page and for who takes the record along; a working copy is nobody's."""
    if shown.publication is None or not shown.live.is_public:
        return None
    report = shown.assessment.payload if shown.assessment else None
    return page_about(shown.publication, report, stands=shown.is_newest)


def offered(user, shown):
    """What this person is led to from here."""
    signed_in = user.is_authenticated
    return {
        "is_public": shown.live.is_public,
        "may_watch": signed_in and shown.live.is_public,
        "watches": signed_in and user.watches.filter(unit=shown.live).exists(),
        "may_moderate": access.may_decide(user, shown.live),
    }


def called(shown):
    """Names of what a reply can speak of: rows of evidence by ref, findings by scenario."""
    report = shown.assessment.payload if shown.assessment else {}
    findings = report.get("safety", {}).get("findings", ())
    return called_in(shown.rows) | {one["scenario"]: one["title"] for one in findings}


def logs_of(shown):
    """How many logs the unit's page of logs lists."""
    if not shown.thawed:
        return shown.live.logs
    return len([log for log in shown.thawed.rows["recording"] if log.is_shown])
