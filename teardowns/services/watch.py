"""Watch a unit, a part or a board family, and who watches one."""
from __future__ import annotations

from typing import Any

from django.db.models import Q, QuerySet

from core.accounts.models import User
from teardowns.models import BoardFamily, BoardFamilyMember, Component, Part, Unit, Watch
from teardowns.models.discussion import kind_of
from teardowns.workflow import NotNow

MOST = 1000
TOO_MANY = (f"You watch {MOST} things, which is as many as there may be. Stop watching one of "
            "them under Notices, then watch this one.")


def watch(*, person: User, thing: Unit | Part | BoardFamily) -> bool:
    """From now on the person hears of it; False when they did already. Raises NotNow."""
    if person.watches.count() >= MOST:
        raise NotNow(TOO_MANY)
    about: dict[str, Any] = {kind_of(thing): thing}
    _, is_new = Watch.objects.get_or_create(person=person, **about)
    return is_new


def unwatch(*, person: User, thing: Unit | Part | BoardFamily) -> bool:
    """The person hears of it no more; False when they did not watch it."""
    return bool(person.watches.about(thing).delete()[0])


def watches(person, thing: Unit | Part | BoardFamily) -> bool:
    return person.is_authenticated and person.watches.about(thing).exists()


def watchers_of(thing: Unit | Part | BoardFamily) -> QuerySet[User]:
    """Who watches it; of a unit also who watches its families or a part that it names."""
    wanted = Q(**{kind_of(thing): thing})
    if isinstance(thing, Unit):
        wanted |= Q(family__in=BoardFamilyMember.objects.current().filter(unit=thing)
                    .values("family"))
        wanted |= Q(part__in=Component.objects.filter(unit=thing, part__isnull=False)
                    .values("part"))
    return User.objects.filter(is_active=True,
                               pk__in=Watch.objects.filter(wanted).order_by().values("person"))
