"""Hide a record, a photo or a comment at once for personal data: for 24 hours, then it is back.

Whoever contributed it, a reviewer or a moderator may; so does the rule of two reports. It judges
nothing. A moderator who did not hide it confirms, or shows it again.
"""
from __future__ import annotations

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import Role, User
from core.audit.record import record
from teardowns import access
from teardowns.models import Decision, HiddenKind, HiddenNow, Statement, Status, Unit
from teardowns.models.moderation import HIDDEN_FOR
from teardowns.workflow import NotNow

from .list_units import list_units
from .move_work import locked_unit
from .quarantine_unit import set_out_of_sight
from .reported_item import Item, item_about, item_seen_by
from .state_reasons import NoReason, give_reasons, traces

OUT_ALREADY = "It is out of sight already."
NOT_HIDDEN = "It is not hidden any more. Load the page again to see where it stands."
BY_ANOTHER = "You hid it, so another moderator confirms that it has to stay hidden."
NOT_BY_CONFIRMER = "You confirmed that it stays hidden, so another moderator shows it again."
SAY_WHAT = "Write what is to be seen and where, such as “the parcel label in photo 3”."


@transaction.atomic
def hide_now(*, by: User | None, about: str, reason: str) -> HiddenNow:
    """by : None for the rule of two reports. Raises Http404, NotNow or NoReason."""
    if not reason.strip():
        raise NoReason(SAY_WHAT)
    item = item_to_hide(by, about)
    unit = _lock(item)
    if is_hidden(item):
        raise NotNow(OUT_ALREADY)
    hidden = HiddenNow.objects.create(
        kind=item.kind, object_id=item.pk, unit=unit, by=by, reason=reason.strip(),
        until=timezone.now() + HIDDEN_FOR)
    _out_of_sight(hidden, unit, by, hide=True)
    statement = give_reasons(
        decision=Decision.HIDE, code="personal_data", facts=reason, subject=item.about, unit=unit,
        addressee=item.author, by=by)
    record(by, "hidden_now", unit=unit, subject=item.about, reason=statement.rule,
           **traces(statement))
    return hidden


def item_to_hide(by: User | None, about: str) -> Item:
    """What is named, if it is public and this person may hide it; Http404."""
    item = item_about(about) if by is None else item_seen_by(by, about)
    if item.kind not in HiddenKind.values or not (by is None or may_hide(by, item)):
        raise Http404("Nothing here that you may hide.")
    if item.unit is not None and item.unit.status != Status.PUBLISHED:
        raise Http404("It is not public, so there is nothing to hide.")
    return item


def _lock(item):
    """The locked unit, or None: what a unit has no part in, its author's row guards."""
    if item.unit is not None:
        return locked_unit(item.unit.pk)
    User.objects.select_for_update().get(pk=item.author.pk)
    return None


def may_hide(person: User, item: Item) -> bool:
    """Own content, or in a role that answers for others' privacy."""
    if not person.in_good_standing:
        return False
    return (person.has_role(Role.REVIEWER, Role.MODERATOR)
            or (item.author is not None and person.pk == item.author.pk))


def is_hidden(item: Item) -> bool:
    if item.kind == HiddenKind.UNIT and Unit.objects.exclude(quarantined_at=None).filter(
            pk=item.pk).exists():
        return True
    return HiddenNow.objects.in_force().of(item.kind, item.pk).exists()


@transaction.atomic
def keep_hidden(*, moderator: User, hidden_pk: int, code: str, facts: str) -> Statement:
    """It stays hidden until a moderator shows it again. Raises Http404, NotNow or NoReason."""
    hidden, unit = _locked(hidden_pk, moderator)
    if hidden.confirmed_at is not None:
        raise NotNow("It is confirmed already.")
    if hidden.by_id == moderator.pk:
        raise NotNow(BY_ANOTHER)
    hidden.confirmed_by, hidden.confirmed_at = moderator, timezone.now()
    hidden.save(update_fields=["confirmed_by", "confirmed_at"])
    return _decided(hidden, unit, moderator, Decision.KEEP_HIDDEN, code, facts)


@transaction.atomic
def show_again(*, moderator: User, hidden_pk: int, code: str, facts: str) -> Statement:
    """Raises Http404, NotNow or NoReason."""
    hidden, unit = _locked(hidden_pk, moderator)
    if hidden.confirmed_by_id == moderator.pk:
        raise NotNow(NOT_BY_CONFIRMER)
    end_hiding(hidden, unit, moderator)
    return _decided(hidden, unit, moderator, Decision.SHOW_AGAIN, code, facts)


def lapse_hidden() -> int:
    """Show again what nobody confirmed within its time; how many. Safe to run twice."""
    return sum(_lapse(pk, unit_pk) for pk, unit_pk in
               _lapsed().order_by("pk").values_list("pk", "unit_id"))


def _lapsed():
    return HiddenNow.objects.filter(ended_at=None, confirmed_at=None, until__lte=timezone.now())


@transaction.atomic
def _lapse(hidden_pk, unit_pk):
    """One at a time, for the log's end is locked from its entry on."""
    unit = locked_unit(unit_pk) if unit_pk else None
    hidden = _lapsed().select_for_update().filter(pk=hidden_pk).first()
    if hidden is None:
        return False
    end_hiding(hidden, unit, None)
    record(None, "hiding_lapsed", unit=unit, subject=about_hidden(hidden))
    return True


def about_hidden(hidden: HiddenNow) -> str:
    return f"{hidden.kind}/{hidden.object_id}"


def _locked(hidden_pk, moderator):
    """The hiding, in force, with its unit, of which the moderator is no author."""
    hidden = _in_force(hidden_pk)
    item = item_about(about_hidden(hidden))
    own = item.author is not None and item.author.pk == moderator.pk
    if own or not (access.may_moderate(moderator) if item.unit is None
                   else access.may_decide(moderator, item.unit)):
        raise Http404("Nothing of it is yours to decide.")
    unit = _lock(item)
    return _in_force(hidden_pk), unit           # what the lock waited for may have ended it


def _in_force(hidden_pk):
    hidden = HiddenNow.objects.in_force().filter(pk=hidden_pk).first()
    if hidden is None:
        raise NotNow(NOT_HIDDEN)
    return hidden


def _decided(hidden, unit, moderator, decision, code, facts):
    about = about_hidden(hidden)
    statement = give_reasons(decision=decision, code=code, facts=facts, subject=about, unit=unit,
                             addressee=item_about(about).author, by=moderator)
    record(moderator, "hiding_confirmed" if decision == Decision.KEEP_HIDDEN else "shown_again",
           unit=unit, subject=about, reason=statement.rule, **traces(statement))
    return statement


def end_hiding(hidden: HiddenNow, unit: Unit | None, actor: User | None) -> None:
    """In the transaction that locked the unit."""
    hidden.ended_at, hidden.ended_by = timezone.now(), actor
    hidden.save(update_fields=["ended_at", "ended_by"])
    _out_of_sight(hidden, unit, actor, hide=False)


def _out_of_sight(hidden, unit, actor, *, hide):
    """A record has a column that everything public asks; photos and comments are looked up."""
    if hidden.kind == HiddenKind.UNIT:
        set_out_of_sight(unit, actor, hide)
    if hidden.kind == HiddenKind.PHOTO:
        list_units([hidden.unit_id])                # its record may be shown by this photo
