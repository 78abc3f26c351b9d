"""Who may see or change what; the only place that decides."""
from django.http import Http404

from teardowns.models import Status, Unit

CHANGEABLE = (Status.DRAFT, Status.SENT_BACK)


def unit_to_see(user, pk, units=Unit.objects):
    """The unit, of those asked for, or 404: an unpublished one is nobody else's business."""
    unit = units.visible_to(user).select_related("contributor").filter(pk=pk).first()
    if unit is None:
        raise Http404("No such unit.")
    return unit


def unit_to_change(user, pk):
    """The contributor's own unit while its bench sheet is open, or 404."""
    unit = Unit.objects.filter(pk=pk, contributor=user, status__in=CHANGEABLE).first()
    if unit is None:
        raise Http404("No such bench sheet.")
    return unit
