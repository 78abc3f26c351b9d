"""Comments and replies, and what they are about."""
from django.db.models import Q
from django.http import Http404

from core.accounts.models import Role
from core.whole_number import whole_number
from teardowns.models import Comment, CommentState, Status, Unit

from .library import family_to_see, part_to_see
from .units import holds_review, may_decide, may_moderate, unit_to_see

# Not public, and talked about by those who are at work on it.
DISCUSSED_INSIDE = (Status.SUBMITTED, Status.IN_REVIEW, Status.SENT_BACK)


def may_write(user):
    """Whether this person may comment, watch and reply at all: in good standing, and in a role
    that has to do with content."""
    return (user.is_authenticated and user.in_good_standing
            and user.role in (Role.CONTRIBUTOR, Role.REVIEWER, Role.MODERATOR))


def may_reply(user):
    """Whether this person may reply for a maker or seller: moderators decide on replies."""
    return may_write(user) and user.role != Role.MODERATOR


def may_comment(user, thing):
    """Whether this person may write about a unit, part or family that they see.

    About a unit that is not public only who is at work on it may, once it was handed in.
    """
    if not may_write(user):
        return False
    if isinstance(thing, Unit) and not thing.is_public:
        return thing.status in DISCUSSED_INSIDE and sees_internal(user, thing)
    return True


def sees_internal(user, unit):
    """Whether this person reads what was said while the unit was not public."""
    if not user.is_authenticated:
        return False
    return (user.pk == unit.contributor_id or may_moderate(user)
            or (unit.quarantined_at is None and holds_review(user, unit)))


def comments_seen_by(user, thing):
    """The comments on a thing that a person sees, tombstones among them."""
    comments = Comment.objects.about(thing).with_hidden()
    if not user.is_authenticated:
        return comments.filter(is_internal=False).exclude(state=CommentState.HELD)
    own = Q(author=user.pk)
    if not may_moderate(user):
        comments = comments.filter(~Q(state=CommentState.HELD) | own)
    if isinstance(thing, Unit) and not sees_internal(user, thing):
        comments = comments.filter(Q(is_internal=False) | own)
    return comments


def comment_of_own(user, pk, comments=None):
    """The person's own comment, or 404."""
    comments = Comment.objects.all() if comments is None else comments
    comment = comments.filter(pk=pk, author=user.pk).first()
    if comment is None:
        raise Http404("No such comment of yours.")
    return comment


def comment_to_moderate(user, pk, comments=None):
    """The comment for a moderator who did not write it, or 404."""
    comments = Comment.objects.all() if comments is None else comments
    comment = comments.filter(pk=pk).first()
    if comment is None or not may_moderate(user) or comment.author_id == user.pk:
        raise Http404("No such comment to moderate.")
    return comment


def reply_version_to_moderate(user, pk, versions):
    """The version of a reply for a moderator with no part in it or in the record, or 404."""
    version = versions.select_related("reply__unit", "reply__entered_by").filter(pk=pk).first()
    if version is None or not may_decide(user, version.reply.unit):
        raise Http404("No such reply to moderate.")
    if user.pk == version.reply.entered_by_id:
        raise Http404("No such reply to moderate.")
    return version


def thing_seen_by(user, kind, key):
    """The unit, part or family that a form names and a person sees, or 404."""
    if kind == "family":
        return family_to_see(key)
    find = {"unit": unit_to_see, "part": part_to_see}.get(kind)
    pk = whole_number(key)
    if find is None or pk is None:
        raise Http404("Nothing of that name.")
    return find(user, pk)


def reply_of_own(user, unit_pk, pk, replies):
    """The person's own reply to a record, or 404."""
    reply = replies.filter(pk=pk, unit=unit_pk, entered_by=user.pk).first()
    if reply is None:
        raise Http404("No such reply of yours.")
    return reply
