"""What the API shows of a unit: what everybody sees, whoever asks."""
from django.contrib.auth.models import AnonymousUser
from django.http import Http404

from teardowns.models import Publication
from teardowns.services.shown_unit import Shown, shown_unit

NOBODY = AnonymousUser()            # a token changes nothing of what is read in public
NO_UNIT = "There is no such unit in public."


def public_version(pk: int, *related: str) -> Publication:
    """The version that stands, with its unit; Http404."""
    found = Publication.objects.current().filter(unit=pk, current_for=pk).select_related(
        "unit__contributor", *related).first()
    if found is None:
        raise Http404(NO_UNIT)
    return found


def public_unit_shown(pk: int, version: int | None = None, units=None) -> Shown:
    """The unit as its pages show it to everybody; Http404."""
    shown = shown_unit(NOBODY, pk, str(version or ""), units)
    if shown.publication is None or not shown.live.is_public:
        raise Http404(NO_UNIT)
    return shown
