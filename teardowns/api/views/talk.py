"""What people say in public, and decisions about one's own work."""
from core.buckets import take
from core.problems import problem
from teardowns import access
from teardowns.api.answers import Answer
from teardowns.api.operation import reads, writes
from teardowns.api.paging import cursor_of, page_of, place_of
from teardowns.api.parameters import PAGED, USUAL, Cursor, Id, Size, Slug, UnitNumber
from teardowns.api.payloads.library import comment_row, statement_row
from teardowns.api.refusing import refuse_faulty
from teardowns.api.schemas import library as schemas
from teardowns.api.schemas.bench import NewComment
from teardowns.api.shown import NOBODY
from teardowns.forms.discussion_forms import CommentForm
from teardowns.models import CommentState, Statement, Unit
from teardowns.presenting.discussion_thread import evidence_refs
from teardowns.services.proposals import Refused
from teardowns.services.write_comment import write_comment
from teardowns.views.discussion_page import ACCOUNT

TAG = "Discussion"
NO_ROW = "There is no such row of evidence: name it by kind and key, as in component/bulk-1."
WAIT = "That was many comments in an hour: come back in {} s."


@reads("/units/{int:unit}/comments", "api_unit_comments", TAG, schemas.Comments, ends=(404, 410),
       takes=PAGED)
def list_comments_on_unit(request, unit: UnitNumber, cursor: Cursor = "", size: Size = USUAL):
    """What is said about a unit, the oldest first"""
    return _said(request, access.public_unit(unit), cursor, size)


@reads("/parts/{int:id}/comments", "api_part_comments", TAG, schemas.Comments, takes=PAGED)
def list_comments_on_part(request, id: Id, cursor: Cursor = "", size: Size = USUAL):
    """What is said about a part, the oldest first"""
    return _said(request, access.part_to_see(NOBODY, id), cursor, size)


@reads("/families/{slug}/comments", "api_family_comments", TAG, schemas.Comments, takes=PAGED)
def list_comments_on_family(request, slug: Slug, cursor: Cursor = "", size: Size = USUAL):
    """What is said about a family, the oldest first"""
    return _said(request, access.family_to_see(slug), cursor, size)


@writes("post", "/units/{int:unit}/comments", "api_unit_comments", TAG, schemas.Comment, status=201)
def comment_on_unit(request, unit: UnitNumber, said: NewComment):
    """Say something about a public unit, or about one row of its evidence"""
    thing = access.public_unit(unit)
    if said.about and said.about not in evidence_refs(thing):
        raise Refused({"about": NO_ROW})
    return _say(request, thing, said)


@writes("post", "/parts/{int:id}/comments", "api_part_comments", TAG, schemas.Comment, status=201)
def comment_on_part(request, id: Id, said: NewComment):
    """Say something about a part"""
    return _say(request, access.part_to_see(NOBODY, id), said)


@writes("post", "/families/{slug}/comments", "api_family_comments", TAG, schemas.Comment,
        status=201)
def comment_on_family(request, slug: Slug, said: NewComment):
    """Say something about a family"""
    return _say(request, access.family_to_see(slug), said)


@reads("/statements", "api_statements", TAG, schemas.Statements, takes=PAGED, private=True,
       ends=(404,))
def list_statements(request, cursor: Cursor = "", size: Size = USUAL):
    """Statements of reasons that were addressed to you, the newest first

    Why something of yours was sent back, declined or withdrawn. In public the one of a withdrawal
    stands at its unit (410).
    """
    found = Statement.objects.filter(addressee=request.user).order_by("-pk")
    if place := place_of(cursor, int):
        found = found.filter(pk__lt=place[0])
    shown, following, links = page_of(request, list(found[:size + 1]), size,
                                      lambda each: cursor_of(each.pk))
    return Answer({"statements": [statement_row(each) for each in shown], "next": following},
                  links=links)


def _said(request, thing, cursor, size):
    comments = access.comments_seen_by(NOBODY, thing).filter(
        state=CommentState.SHOWN, is_hidden=False).select_related("author").order_by("pk")
    if place := place_of(cursor, int):
        comments = comments.filter(pk__gt=place[0])
    shown, following, links = page_of(request, list(comments[:size + 1]), size,
                                      lambda comment: cursor_of(comment.pk))
    return Answer({"comments": [comment_row(each) for each in shown], "next": following},
                  links=links)


def _say(request, thing, said):
    form = CommentForm({"text": said.text})
    refuse_faulty(form)
    if wait := take("comments/account", request.user.pk, *ACCOUNT):
        return problem(429, WAIT.format(wait), headers={"Retry-After": str(wait)})
    ref = said.about if isinstance(thing, Unit) else ""
    comment = write_comment(author=request.user, thing=thing, ref=ref,
                            text=form.cleaned_data["text"])
    return Answer(comment_row(comment), 201, comment.get_absolute_url())
