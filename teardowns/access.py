"""Who may see or change what; the only place that decides."""
from django.db.models import Exists, OuterRef, Q
from django.http import Http404

from core.accounts.models import Role
from teardowns.models import (
    BoardFamily,
    Comment,
    CommentState,
    Correction,
    Part,
    Photo,
    Recording,
    Review,
    Status,
    Unit,
)
from teardowns.workflow import OPEN, WAITING

# What a moderator sees besides what everybody does: all that was handed in.
HANDED_IN = (Status.SUBMITTED, Status.IN_REVIEW, Status.SENT_BACK, Status.DECLINED,
             Status.PUBLISHED, Status.WITHDRAWN)

# Not public, and talked about by those who are at work on it.
DISCUSSED_INSIDE = (Status.SUBMITTED, Status.IN_REVIEW, Status.SENT_BACK)


def units_seen_by(user, units=None):
    """The units whose page a person may open: what is public, and what is theirs to see."""
    units = Unit.objects.all() if units is None else units
    public = Q(status=Status.PUBLISHED, quarantined_at=None, publication__isnull=False)
    if not user.is_authenticated:
        return units.filter(public)
    return units.filter(public | _behind_the_scenes(user))


def _behind_the_scenes(user):
    """What the contributor, the author of a correction, a reviewer at it or a moderator sees."""
    seen = Q(contributor=user.pk) & ~Q(status=Status.DISCARDED)
    if user.has_role(Role.MODERATOR):
        seen |= Q(status__in=HANDED_IN)
    if user.has_role(Role.REVIEWER):
        held = Review.objects.filter(unit=OuterRef("pk"), reviewer=user.pk, closed_at=None)
        seen |= Q(Exists(held), quarantined_at=None, status__in=(*WAITING, Status.PUBLISHED))
    return seen


def unit_to_see(user, pk, units=None):
    """The unit, of those asked for, or 404: an unpublished one is nobody else's business."""
    unit = units_seen_by(user, units).select_related("contributor").filter(pk=pk).first()
    if unit is None:
        raise Http404("No such unit.")
    return unit


def unit_to_change(user, pk):
    """The unit while its bench sheet is open to this person, or 404.

    It is the contributor's before it is published, and then the author's of an open correction.
    """
    unit = Unit.objects.filter(pk=pk).first()
    if unit is None or not may_change(user, unit):
        raise Http404("No such bench sheet.")
    return unit


def may_change(user, unit):
    """Whether this person may write on the unit's bench sheet now."""
    if not user.is_authenticated or unit.quarantined_at is not None:
        return False
    work = unit.work
    return work.author_id == user.pk and work.status in OPEN


def unit_of_own(user, pk):
    """The unit whose work is this person's, at any stage, or 404."""
    unit = Unit.objects.exclude(status=Status.DISCARDED).filter(pk=pk).first()
    if unit is None or unit.work.author_id != user.pk:
        raise Http404("No such bench sheet.")
    return unit


def unit_working_copy(user, pk, units=None):
    """The unit for those who may see its rows as they are being worked on, or 404."""
    unit = unit_to_see(user, pk, units)
    if not sees_working_copy(user, unit):
        raise Http404("No such working copy.")
    return unit


def sees_working_copy(user, unit):
    """Whether this person sees rows, photos and logs that no published version has."""
    if not user.is_authenticated:
        return False
    if user.pk in (unit.contributor_id, unit.work.author_id):
        return True
    if user.has_role(Role.MODERATOR):
        return unit.work.status not in (Status.DRAFT, Status.DISCARDED)
    return holds_review(user, unit) and unit.work.status in WAITING


def holds_review(user, unit):
    """Whether this reviewer has taken on the unit and is still at it."""
    return user.has_role(Role.REVIEWER) and Review.objects.filter(
        unit=unit, reviewer=user.pk, closed_at=None).exists()


def unit_to_review(user, pk, units=None):
    """The unit that this reviewer holds, while it is looked at and is not their own, or 404.

    It comes with its work (`work_status`, `work_author`, `work_correction`), in one query.
    """
    units = Unit.objects.with_work() if units is None else units
    held = Review.objects.filter(unit=OuterRef("pk"), reviewer=user.pk, closed_at=None)
    unit = None
    if user.has_role(Role.REVIEWER):
        unit = units.filter(Exists(held), pk=pk, quarantined_at=None, work_status__in=WAITING
                            ).exclude(Q(work_author=user.pk) | Q(contributor=user.pk)).first()
    if unit is None:
        raise Http404("You have not taken on a review of this unit.")
    return unit


def may_read_again(user, unit):
    """Whether this person may take a second reading: a reviewer, of somebody else's unit."""
    if not (user.is_authenticated and user.has_role(Role.REVIEWER)):
        return False
    return user.pk not in (unit.contributor_id, unit.work.author_id)


def may_moderate(user):
    return user.is_authenticated and user.has_role(Role.MODERATOR)


def unit_to_moderate(user, pk):
    """The unit for a moderator who has no part in it, or 404: a draft is its author's alone."""
    unit = Unit.objects.filter(pk=pk, status__in=HANDED_IN).first()
    if unit is None or not may_decide(user, unit):
        raise Http404("No such unit to moderate.")
    return unit


def correction_to_see(user, unit_pk, pk):
    """A proposed correction with its unit, base and people; or 404.

    Its author, the contributor of the unit and moderators see it at any stage but a moderator no
    draft, a reviewer who holds the unit while it is looked at; everybody sees a published one.
    """
    found = Correction.objects.filter(unit=unit_pk, pk=pk).select_related(
        "unit__contributor", "author", "base").first()
    if found is None or not _sees_correction(user, found):
        raise Http404("No such correction.")
    return found


def _sees_correction(user, correction):
    unit = correction.unit
    if correction.status == Status.PUBLISHED and unit.is_public:
        return True
    if not user.is_authenticated:
        return False
    if user.pk in (correction.author_id, unit.contributor_id):
        return True
    if may_moderate(user):
        return correction.status not in (Status.DRAFT, Status.DISCARDED)
    return correction.status in WAITING and holds_review(user, unit)


def unit_to_withdraw(user, pk):
    """The unit that its own contributor, or a moderator with no part in it, may withdraw; or 404.
    """
    unit = Unit.objects.filter(pk=pk, status__in=(Status.PUBLISHED, Status.WITHDRAWN)).first()
    if unit is None or not may_withdraw(user, unit):
        raise Http404("No such unit to withdraw.")
    return unit


def may_withdraw(user, unit):
    """Whether a published unit may be withdrawn by this person."""
    return user.is_authenticated and (user.pk == unit.contributor_id or may_decide(user, unit))


def may_decide(user, unit):
    """Whether this moderator may decide about a unit: never about their own work."""
    return may_moderate(user) and user.pk not in (unit.contributor_id, unit.work.author_id)


def photo_to_see(user, unit_pk, key):
    """The photo of a unit that this person may see, or 404."""
    return _photo(user, unit_to_see(user, unit_pk), key)


def photo_to_change(user, unit_pk, key):
    """The photo on the contributor's own open bench sheet, or 404."""
    return _photo(user, unit_to_change(user, unit_pk), key)


def photo_to_cover(user, unit_pk, key):
    """The photo that this person may burn a region out of, or 404: a moderator may at any time.

    What is burnt out is gone from public versions as well, so no correction burns into the
    published photo of somebody else.
    """
    if may_moderate(user):
        return photo_to_see(user, unit_pk, key)
    photo = photo_to_change(user, unit_pk, key)
    if photo.published_at is not None and photo.author_id != user.pk:
        raise Http404("No such photo of yours.")
    return photo


def may_take_down(user, file):
    """Whether this person may take a photo or log off the pages: what was published would be gone
    from public versions at once, so there only who sent it may."""
    return file.published_at is None or file.author_id == user.pk


def photo_with_original(user, unit_pk, key):
    """The photo whose original this person may have, or 404.

    Who sent it has it until something was covered; a moderator always has.
    """
    photo = photo_to_see(user, unit_pk, key)
    is_own = user.pk == photo.author_id and not photo.covers.exists()
    if not (is_own or may_moderate(user)):
        raise Http404("No such photo.")
    return photo


def photo_to_read_again(user, unit_pk, key):
    """The photo of somebody else's unit that this reviewer may measure once more, or 404."""
    photo = photo_to_see(user, unit_pk, key)
    if not may_read_again(user, photo.unit):
        raise Http404("No such photo.")
    return photo


def _photo(user, unit, key):
    photo = Photo.objects.shown().with_hidden().filter(unit=unit, key=key).first()
    if photo is None or not (_is_out(user, unit, photo) and _is_in_sight(user, photo)):
        raise Http404("No such photo.")
    photo.unit = unit
    return photo


def _is_in_sight(user, photo):
    """Whether it is not hidden for now; who sent it and moderators see it all the same."""
    return not photo.is_hidden or may_moderate(user) or photo.author_id == user.pk


def _is_out(user, unit, file):
    """Whether a photo or log came with a published version, or this person sees what did not."""
    return (unit.is_public and file.published_at is not None) or sees_working_copy(user, unit)


def recording_to_see(user, unit_pk, key):
    """The recording, read and shown, of a unit that this person may see, or 404."""
    return _recording(user, unit_to_see(user, unit_pk), key, Recording.objects.shown())


def recording_to_change(user, unit_pk, key):
    """The recording on the contributor's own open bench sheet, read or not, or 404."""
    return _recording(user, unit_to_change(user, unit_pk), key, Recording.objects.kept())


def recording_with_original(user, unit_pk, key):
    """The recording whose original this person may have, who sent it or a moderator; or 404.

    Beside its numbers a log may hold what nobody else is to see: names, places, serial numbers.
    """
    unit = unit_to_see(user, unit_pk)
    recording = _recording(user, unit, key, Recording.objects.kept())
    if not (user.is_authenticated and user.pk == recording.author_id or may_moderate(user)):
        raise Http404("No such recording.")
    return recording


def _recording(user, unit, key, recordings):
    recording = recordings.filter(unit=unit, key=key).select_related("port").first()
    if recording is None or not _is_out(user, unit, recording):
        raise Http404("No such recording.")
    recording.unit = unit
    return recording


def part_to_see(user, pk):
    """The library's entry, or 404: what a bench sheet brought in is its contributor's at first."""
    part = Part.objects.visible_to(user).select_related("superseded_by", "curator").filter(
        pk=pk).first()
    if part is None:
        raise Http404("No such part in the library.")
    return part


def proposal_to_see(user, proposals, pk):
    """The proposal, of those asked for, or 404: its proposer's and the moderators' business."""
    proposal = proposals.visible_to(user).filter(pk=pk).first()
    if proposal is None:
        raise Http404("No such proposal.")
    return proposal


def may_decide_proposal(user, proposal):
    """Whether this moderator may decide about a proposal: never about their own."""
    return may_moderate(user) and proposal.proposer_id != user.pk


def family_to_see(slug):
    """The board family, or 404: every one is public."""
    family = BoardFamily.objects.filter(slug=slug).first()
    if family is None:
        raise Http404("No such family.")
    return family


def may_write(user):
    """Whether this person may comment, watch and reply at all: in good standing, and in a role
    that has to do with content."""
    return (user.is_authenticated and user.in_good_standing
            and user.role in (Role.CONTRIBUTOR, Role.REVIEWER, Role.MODERATOR))


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
    if find is None or not (key.isascii() and key.isdigit()) or len(key) > 18:
        raise Http404("Nothing of that name.")
    return find(user, int(key))


def reply_of_own(user, unit_pk, pk, replies):
    """The person's own reply to a record, or 404."""
    reply = replies.filter(pk=pk, unit=unit_pk, entered_by=user.pk).first()
    if reply is None:
        raise Http404("No such reply of yours.")
    return reply


def public_unit(pk):
    """The unit that everybody sees, or 404."""
    unit = Unit.objects.published().filter(pk=pk, publication__isnull=False).first()
    if unit is None:
        raise Http404("No such unit.")
    return unit
