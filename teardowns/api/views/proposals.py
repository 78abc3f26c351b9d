"""Proposals to the library and to board families, which moderators decide about."""
from teardowns import access
from teardowns.api.answers import Answer
from teardowns.api.operation import writes
from teardowns.api.parameters import Slug
from teardowns.api.pointers import BodyErrors, strangers
from teardowns.api.refusing import refuse_faulty
from teardowns.api.schemas import bench as schemas
from teardowns.forms.family_forms import MemberForm
from teardowns.forms.part_forms import FORMS
from teardowns.models import Change
from teardowns.services.edit_family import propose_member
from teardowns.services.proposals import Refused
from teardowns.services.propose_part import propose_part

TAG = "Parts and families"
OF_LIMIT = (Change.LIMIT_CHANGED, Change.LIMIT_REMOVED)
NO_PART = "Say of which part: its number. Only a new part has none."
NO_LIMIT = "Say which limit of the part: its number, as the part lists it."


@writes("post", "/parts/proposals", "api_part_propose", TAG, schemas.Proposed, status=201,
        ends=(404, 409, 412))
def propose_to_library(request, said: schemas.NewProposal):
    """Propose a part, or a change of one: limits come with their source"""
    part = _part(request.user, said)
    limit = _limit(part, said)
    options = {"quantity": limit.quantity} if said.change == Change.LIMIT_CHANGED else {}
    form = FORMS[said.change]({**said.fields, "why": said.why, "seen": said.seen or ""}, **options)
    own = [name for name in form.fields if name not in ("why", "seen")]
    if strange := strangers(said.fields, own, "fields"):
        raise BodyErrors(strange)
    refuse_faulty(form, _place)
    try:
        made = propose_part(proposer=request.user, change=said.change, part=part, limit=limit,
                            seen=said.seen, why=said.why, **form.said())
    except Refused as refused:
        raise Refused({_place(name): words for name, words in refused.errors.items()}) from None
    return _proposed(made)


@writes("post", "/families/{slug}/members", "api_family_propose", TAG, schemas.Proposed,
        status=201)
def propose_to_family(request, slug: Slug, said: schemas.NewMember):
    """Propose that a public unit belongs to a family"""
    family = access.family_to_see(slug)
    form = MemberForm({"unit": said.unit, "why": said.why})
    refuse_faulty(form)
    return _proposed(propose_member(proposer=request.user, family_pk=family.pk,
                                    unit_pk=said.unit, why=form.cleaned_data["why"]))


def _part(person, said):
    if said.change == Change.PART:
        return None
    if said.part is None:
        raise Refused({"part": NO_PART})
    return access.part_to_see(person, said.part)


def _limit(part, said):
    if said.change not in OF_LIMIT:
        return None
    limit = part.limits.filter(pk=said.limit).first() if said.limit else None
    if limit is None:
        raise Refused({"limit": NO_LIMIT})
    return limit


def _place(name):
    return name if name in ("why", "seen") else "" if name == "__all__" else f"fields/{name}"


def _proposed(made):
    page = made.get_absolute_url()
    return Answer({"proposal": made.pk, "page": page, "state": made.state}, 201, page)
