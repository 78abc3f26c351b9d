"""One's own bench sheets: begin, read, hand in, take back, drop, correct."""
from uuid import uuid4

from django.db import transaction
from django.db.models import Q
from django.urls import reverse

from core.audit.record import record
from teardowns import access
from teardowns.api.answers import Answer
from teardowns.api.operation import reads, writes
from teardowns.api.paging import cursor_of, page_of, place_of
from teardowns.api.parameters import PAGED, USUAL, Cursor, Size, UnitNumber
from teardowns.api.payloads.bench import sheet, sheet_of
from teardowns.api.refusing import refuse_faulty, steps_to
from teardowns.api.schemas import bench as schemas
from teardowns.exchange.document import DocumentError
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import brief
from teardowns.forms.submit_form import SubmitForm, ticked
from teardowns.forms.unit_form import UnitForm
from teardowns.models import ReviewRemark, Status, Unit
from teardowns.presenting.photos_asked import photos_asked
from teardowns.services.account_room import check_sheets
from teardowns.services.assess_units import assess_units
from teardowns.services.check_photo_privacy import check_photo_privacy
from teardowns.services.discard_unit import discard_unit
from teardowns.services.drop_correction import drop_correction
from teardowns.services.export_unit import unit_document
from teardowns.services.import_unit import import_unit
from teardowns.services.open_correction import open_correction
from teardowns.services.proposals import Refused
from teardowns.services.start_unit import start_unit
from teardowns.services.submit_unit import submit_unit
from teardowns.services.take_back_unit import take_back_unit

TAG = "Bench"
NAMES = ("title", "kind")
BOTH = "Send a document, or a title and kind, not both: the document has a title of its own."


@reads("/bench", "api_bench_list", TAG, schemas.Sheets, takes=PAGED, private=True)
def list_sheets(request, cursor: Cursor = "", size: Size = USUAL):
    """Your bench sheets, the newest first"""
    me = request.user.pk
    units = Unit.objects.with_work().filter(Q(contributor=me) | Q(work_author=me)).exclude(
        status=Status.DISCARDED).order_by("-pk")
    if place := place_of(cursor, int):
        units = units.filter(pk__lt=place[0])
    shown, following, links = page_of(request, list(units[:size + 1]), size,
                                      lambda unit: cursor_of(unit.pk))
    rows = [sheet(unit, unit.work_status, unit.work_author == me,
                  unit.work_correction if unit.work_author == me else None) for unit in shown]
    return Answer({"sheets": rows, "next": following}, links=links)


@writes("post", "/bench", "api_bench_list", TAG, schemas.Sheet, status=201, ends=(409,))
def start_sheet(request, said: schemas.NewUnit):
    """Begin a unit: an empty sheet with a title, or a whole document"""
    if said.document is None:
        unit = _begun(request.user, said)
    elif "title" in said.model_fields_set:
        raise Refused({"title": BOTH})
    else:
        unit = _brought_in(request.user, said.document)
    row = sheet_of(unit, unit.work)
    return Answer(row, 201, row["href"])


def _begun(person, said):
    form = UnitForm({"unit-title": said.title, "unit-kind": said.kind}, names=NAMES)
    refuse_faulty(form)
    return start_unit(person, uuid4(), form.values())


@transaction.atomic
def _brought_in(person, document):
    check_sheets(person)
    try:
        unit = import_unit(document, person)
    except DocumentError as error:
        error.below = ("document",)
        raise
    record(person, "unit_started", unit)
    assess_units([unit])
    return unit


@reads("/bench/{int:unit}", "api_bench", TAG, schemas.WholeSheet, private=True)
def read_sheet(request, unit: UnitNumber):
    """A sheet of your own with all its evidence, at whatever stage it is"""
    own = access.unit_of_own(request.user, unit)
    return sheet_of(own, own.work) | {"document": brief(unit_document(own), unit_schema())}


@writes("post", "/bench/{int:unit}/submit", "api_bench_submit", TAG, schemas.Sheet)
def submit_sheet(request, unit: UnitNumber, said: schemas.HandIn):
    """Hand a sheet in for review

    Everything that is missing is named at once. Photos have to have been looked at in full size:
    say so for the version that you saw.
    """
    own = access.unit_of_own(request.user, unit)
    if own.work.is_open and own.quarantined_at is None:
        seen, keys = ticked(_typed(said))
        check_photo_privacy(author=request.user, unit_pk=unit, seen=seen, ticked=keys)
    form = _hand_in_form(request.user, own, said)
    refuse_faulty(form, _place_of)
    submit_unit(author=request.user, unit_pk=unit, terms=form.terms(),
                message=form.cleaned_data["message"],
                why_no_photo=form.cleaned_data.get("why_no_photo", ""), answers=form.answers())
    return _sheet_now(request.user, unit)


def _hand_in_form(person, unit, said):
    remarks = ReviewRemark.objects.of_open_work(unit).unanswered() \
        if unit.work.status == Status.SENT_BACK else ()
    photos = photos_asked(unit, person)
    return SubmitForm(_typed(said), has_photos=bool(photos), remarks=list(remarks),
                      photos=[each["photo"] for each in photos if not each["is_vouched"]])


def _typed(said):
    """As the page's form sends it."""
    typed = {name: getattr(said, name) for name in (
        "message", "third_party", "third_party_note", "why_no_photo")}
    typed["edition"] = str(said.edition)
    if said.own_rights:
        typed["own_rights"] = "on"
    for key, version in said.photos_looked_at.items():
        typed |= {f"photo-{key}": "on", f"seen-{key}": str(version)}
    return typed | {f"answer-{number}": text for number, text in said.answers.items()}


def _place_of(name):
    """Name of a field of the form → pointer below the body."""
    for prefix, place in (("photo-", "photos_looked_at/"), ("answer-", "answers/")):
        if name.startswith(prefix):
            return place + name.removeprefix(prefix)
    return steps_to(name)


@writes("post", "/bench/{int:unit}/take-back", "api_bench_take_back", TAG, schemas.Sheet)
def take_back_sheet(request, unit: UnitNumber):
    """Take back what was handed in, before anybody decided"""
    take_back_unit(author=request.user, unit_pk=unit)
    return _sheet_now(request.user, unit)


@writes("post", "/bench/{int:unit}/discard", "api_bench_discard", TAG, schemas.Sheet)
def discard_sheet(request, unit: UnitNumber, said: schemas.Reason):
    """Withdraw a draft, or drop a correction: nothing of it is deleted, nobody finds it any more
    """
    own = access.unit_to_change(request.user, unit)
    work, reason = own.work, said.reason.strip()[:300]
    drop = drop_correction if work.correction else discard_unit
    drop(author=request.user, unit_pk=unit, reason=reason)
    own.refresh_from_db()
    return sheet(own, "discarded", False, work.correction.pk if work.correction else None)


@writes("post", "/units/{int:unit}/corrections", "api_unit_correct", TAG, schemas.Opened,
        status=201)
def correct_unit(request, unit: UnitNumber, said: schemas.Reason):
    """Open a correction of a public unit: its bench is yours, everybody sees the old version"""
    access.public_unit(unit)
    made = open_correction(author=request.user, unit_pk=unit, reason=said.reason)
    bench = reverse("api_bench", args=[unit])
    return Answer({"correction": made.pk, "unit": unit, "base": made.base.number,
                   "bench": bench}, 201, bench)


def _sheet_now(person, pk):
    unit = access.unit_of_own(person, pk)
    return sheet_of(unit, unit.work)

