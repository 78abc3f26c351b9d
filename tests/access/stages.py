"""A unit at a stage of its life, a reviewer at it, and who is let in."""
from django.http import Http404

from teardowns.models import Review, Status
from tests.published import published


def at(unit, status):
    if status in (Status.PUBLISHED, Status.WITHDRAWN):
        published(unit)
    unit.status = status
    unit.save()


def held_by(reviewer, unit):
    """An open review, without the steps that lead to one."""
    return Review.objects.create(unit=unit, reviewer=reviewer, no_conflict=True)


def who(people, decide):
    """Names of those for whom it says yes or finds something."""
    return {name for name, person in people.items() if _says_yes(decide, person)}


def _says_yes(decide, person):
    try:
        return bool(decide(person))
    except Http404:
        return False
