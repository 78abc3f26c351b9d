"""Units that are public: the record, its versions, how its numbers were worked out."""
from typing import Annotated, Literal

from django.http import Http404
from ninja import Path, Query

from teardowns.api.answers import Answer
from teardowns.api.operation import reads
from teardowns.api.parameters import Id, Key, Number, UnitNumber, Word
from teardowns.api.payloads.units import (
    assessment_row,
    unit_record,
    version_row,
    whole_assessment,
)
from teardowns.api.schemas import units as schemas
from teardowns.api.shown import NO_UNIT, public_unit_shown, public_version
from teardowns.engine import rulebook
from teardowns.engine.rule import CHECK, SAFETY
from teardowns.exchange.changes import changes
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import brief
from teardowns.models import Assessment, ListedUnit, Publication, Unit
from teardowns.presenting.licence_lines import licences_exported
from teardowns.presenting.replies_shown import replies_exported
from teardowns.services.active_rulebook import rulebook_beside
from teardowns.services.difference_of_work import difference_of_versions
from teardowns.services.list_units import listing_columns
from teardowns.services.page_state import page_state
from teardowns.views.recomputed import claim_working, line_working, safety_working

TAG = "Units"
UNSHOWN = ("document", "frozen", "words", "assessment__payload")
End = Annotated[Literal["low", "high"], Path(..., description="End of the mains range.",
                                             example="low")]


@reads("/units/{int:unit}", "api_unit", TAG, schemas.Unit, ends=(404, 410),
       made_of=lambda unit: page_state([unit]))
def read_unit(request, unit: UnitNumber):
    """One unit: the version that stands, and what it comes to

    Verdicts on the printed claims, capability, hazards found with the replies beside them. Only
    confirmed evidence counts. 410 says when and why a record was withdrawn.
    """
    found = public_version(unit, "standing", "unit__listing")
    # A site that has only just got its listing may lack the row for a moment.
    row = getattr(found.unit, "listing", None) or ListedUnit(
        unit_id=unit, **listing_columns(found))
    return unit_record(row, found, replies_exported(found.unit))


@reads("/units/{int:unit}/document", "api_unit_document", TAG, dict, ends=(404, 410),
       takes=("version",))
def read_document(request, unit: UnitNumber, version: Annotated[int | None, Query(
        ge=1, le=999_999, description="Number of a version; without it the one that stands."
        )] = None):
    """The whole evidence, in the exchange form

    It stands alone: what is read here can be sent to “POST /bench” of another site.
    """
    shown = public_unit_shown(unit, version)
    document = brief(shown.document, unit_schema())
    return {**document, "replies": replies_exported(shown.live),
            "licences": licences_exported(shown.live)}


@reads("/units/{int:unit}/versions", "api_unit_versions", TAG, schemas.Versions, ends=(404, 410))
def read_versions(request, unit: UnitNumber):
    """All versions of a unit, the newest first"""
    rows = [version_row(one) for one in _versions(unit).defer(*UNSHOWN).order_by("-number")]
    if not rows:
        raise Http404(NO_UNIT)
    return {"versions": rows}


@reads("/units/{int:unit}/versions/{int:number}", "api_unit_version", TAG, schemas.Version,
       ends=(404, 410))
def read_version(request, unit: UnitNumber, number: Number):
    """One version as it was published, for good"""
    found = _versions(unit).filter(number=number).defer("frozen", "words").first()
    if found is None:
        raise Http404("There is no such version.")
    payload = version_row(found) | {
        "document": brief(found.document, unit_schema()),
        "assessment": whole_assessment(found.assessment, found, "publication")}
    return Answer(payload, changed=found.published_at)


@reads("/units/{int:unit}/versions/{int:number}/against/{int:other}", "api_unit_difference", TAG,
       schemas.Difference, ends=(404, 410))
def read_difference(request, unit: UnitNumber, number: Number,
                    other: Annotated[int, Path(..., ge=1, le=999_999, example=1,
                                               description="Number of the other version.")]):
    """What version “number” has otherwise than version “other”"""
    found = {one.number: one for one in _versions(unit).filter(number__in=(number, other))
             .defer("frozen", "words")}
    if not {number, other} <= set(found):
        raise Http404("There are no such versions.")
    was, now = found[other], found[number]
    difference = difference_of_versions(was, now)
    told = changes(difference.was, difference.now)
    rows = [{"list": row.list, "key": row.key, "was": row.was, "now": row.now}
            for row in told.rows]
    if told.unit:
        rows.insert(0, {"list": "unit", "key": "",
                        "was": {each.name: each.was for each in told.unit},
                        "now": {each.name: each.now for each in told.unit}})
    return Answer({"was": other, "now": number, "changes": rows,
                   "verdicts": {"was": assessment_row(was.assessment, was, "publication"),
                                "now": assessment_row(now.assessment, now, "publication")}},
                  changed=max(was.published_at, now.published_at))


@reads("/units/{int:unit}/assessments", "api_unit_assessments", TAG, schemas.Assessments,
       ends=(404, 410))
def read_assessments(request, unit: UnitNumber):
    """What was computed of every version: as published, and as the newest stands today"""
    found = list(_versions(unit).select_related("standing").defer(
        *UNSHOWN, "standing__payload").order_by("-number"))
    if not found:
        raise Http404(NO_UNIT)
    newest = assessment_row(found[0].standing, found[0], "today")
    return {"assessments": [newest, *(assessment_row(one.assessment, one, "publication")
                                      for one in found)]}


@reads("/units/{int:unit}/assessments/{int:id}", "api_unit_assessment", TAG,
       schemas.WholeAssessment, ends=(404, 410))
def read_assessment(request, unit: UnitNumber, id: Id):
    """Everything that was computed of one version"""
    for one in _versions(unit).defer(*UNSHOWN).order_by("-number"):
        if id in (one.standing_id, one.assessment_id):
            as_of = "publication" if id == one.assessment_id else "today"
            return whole_assessment(Assessment.objects.get(pk=id), one, as_of)
    raise Http404("There is no such assessment of this unit.")


@reads("/units/{int:unit}/working/{group}/{rule}/{end}", "api_unit_working", TAG,
       schemas.Working, ends=(404, 410), takes=("claim",))
def read_working(request, unit: UnitNumber, group: Word, rule: Word, end: End,
                 claim: Annotated[str, Query(max_length=64, pattern="^[a-z0-9-]*$", description=(
                     "Key of the claim as whose evidence it is read; else the largest."))] = ""):
    """How one line of evidence, or one grade of a safety rule, came to its value"""
    line = f"{group}/{rule}"
    book = rulebook.load()
    try:
        kind = book[line].kind
    except KeyError:
        raise Http404("The rulebook has no such rule.") from None
    if kind == CHECK:
        raise Http404("A check compares, and works nothing out: its numbers stand in the "
                      "assessment.")
    shown = public_unit_shown(unit, units=Unit.objects.with_active_set())
    rules = rulebook_beside(shown.live)
    if kind == SAFETY:
        trace = safety_working(shown.document, rules, line, True)
    else:
        trace = line_working(shown.document, rules, line, end, f"claim/{claim}" if claim else "",
                             True)
    if trace is None:
        raise Http404("This line has no value for this unit at this end of the mains range.")
    return {"working": trace, "rulebook": rules.version}


@reads("/units/{int:unit}/claims/{key}/working", "api_unit_claim_working", TAG, schemas.Working,
       ends=(404, 410))
def read_claim_working(request, unit: UnitNumber, key: Key):
    """How one claim was judged"""
    shown = public_unit_shown(unit, units=Unit.objects.with_active_set())
    rules = rulebook_beside(shown.live)
    trace = claim_working(shown.document, rules, f"claim/{key}", True)
    if trace is None:
        raise Http404("This unit has no such claim, or no rule judges it.")
    return {"working": trace, "rulebook": rules.version}


@reads("/units/{int:unit}/replies", "api_unit_replies", TAG, schemas.Replies, ends=(404, 410))
def read_replies(request, unit: UnitNumber):
    """What makers and sellers replied, to the record or to a finding"""
    return {"replies": replies_exported(public_version(unit).unit)}


def _versions(unit):
    return Publication.objects.filter(unit=unit, unit__in=Unit.objects.published()).select_related(
        "assessment", "correction__author")


