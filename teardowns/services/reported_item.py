"""What a report, a hiding or a statement is about: "unit/12", "photo/3", "comment/7", "reply/2"."""
from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404

from core.accounts.models import User
from core.whole_number import whole_number
from teardowns import access
from teardowns.models import Comment, Photo, Reply, Unit

NOTHING = "There is nothing here that could be reported."


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that people see."""

    kind: str
    pk: int
    about: str
    unit: Unit | None               # None: about a part or a family of the library
    title: str
    address: str
    author: User | None


def item_about(about: str) -> Item:
    """The thing that is named, whether or not it is in sight. Raises Http404."""
    kind, _, rest = about.partition("/")
    number, _, ref = rest.partition("/")
    pk = whole_number(number)
    if kind not in _FINDERS or pk is None:
        raise Http404(NOTHING)
    if ref and kind != "unit":
        raise Http404(NOTHING)
    return _FINDERS[kind](pk, ref)


def item_seen_by(user, about: str) -> Item:
    """The thing that is named, if this person can see its record. Raises Http404."""
    item = item_about(about)
    if item.unit is not None:
        access.unit_to_see(user, item.unit.pk)
    return item


def _unit(pk, ref):
    unit = Unit.objects.select_related("contributor").filter(pk=pk).first()
    if unit is None:
        raise Http404(NOTHING)
    title = f"{unit.title}: {ref}" if ref else unit.title
    about = f"unit/{pk}/{ref}" if ref else f"unit/{pk}"
    return Item("unit", pk, about, unit, title, unit.get_absolute_url(), unit.contributor)


def _photo(pk, ref):
    photo = Photo.objects.select_related("unit", "author").filter(pk=pk).first()
    if photo is None:
        raise Http404(NOTHING)
    return Item("photo", pk, f"photo/{pk}", photo.unit, f"{photo.unit.title}: photo {photo.key}",
                photo.get_absolute_url(), photo.author)


def _comment(pk, ref):
    comment = Comment.objects.select_related(
        "unit", "part", "family", "author").filter(pk=pk).first()
    if comment is None:
        raise Http404(NOTHING)
    return Item("comment", pk, comment.subject, comment.unit, f"{comment.thing}: comment {pk}",
                comment.get_absolute_url(), comment.author)


def _reply(pk, ref):
    reply = Reply.objects.select_related("unit", "entered_by").filter(pk=pk).first()
    if reply is None:
        raise Http404(NOTHING)
    return Item("reply", pk, reply.subject, reply.unit, f"{reply.unit.title}: reply {pk}",
                reply.get_absolute_url(), reply.entered_by)


_FINDERS = {"unit": _unit, "photo": _photo, "comment": _comment, "reply": _reply}
