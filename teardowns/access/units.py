"""Units, their corrections and working copies: who sees, changes, reviews and decides."""
from django.db.models import Exists, OuterRef, Q
from django.http import Http404

from core.accounts.models import Role
from teardowns.models import Correction, Review, Status, Unit
from teardowns.workflow import OPEN, WAITING

# What a moderator sees besides what everybody does: all that was handed in.
HANDED_IN = (Status.SUBMITTED, Status.IN_REVIEW, Status.SENT_BACK, Status.DECLINED,
             Status.PUBLISHED, Status.WITHDRAWN)


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


def public_unit(pk):
    """The unit that everybody sees, or 404."""
    unit = Unit.objects.published().filter(pk=pk).first()
    if unit is None:
        raise Http404("No such unit.")
    return unit
