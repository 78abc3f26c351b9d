"""An entry of the part library with one cited limit, and proposals to change it."""
from django.utils import timezone

from teardowns.models import BoardFamily, Change, Component, Part, PartLimit
from teardowns.services.propose_part import propose_part

POWER = "controller_power_wide"
SHEET = "PZ6318 data sheet, rev. 2, table 1, page 3"
SOURCE = {"document": "PZ6318 data sheet", "revision": "rev. 3", "place": "table 1", "page": "4"}


def listed(curator, marking="PZ6318", watts=12.0, **fields):
    """A part that everybody sees, with a published power where one is given."""
    part = Part.objects.create(marking=marking, curator=curator, accepted_at=timezone.now(),
                               **{"function": "primary controller"} | fields)
    if watts is not None:
        PartLimit.objects.create(part=part, quantity=POWER, value=watts, citation=SHEET)
    return part


def contain(unit, part, key="ctrl", **fields):
    """The unit's board has the part."""
    return Component.objects.create(**{
        "unit": unit, "key": key, "role": "primary_controller", "marking": part.marking,
        "part": part, "author": unit.contributor, "review_state": "confirmed"} | fields)


def new_limit(proposer, part, value=13.0, **said):
    return propose_part(**{"proposer": proposer, "change": Change.LIMIT, "part": part,
                           "seen": part.version, "why": "Rev. 3 is out.", "quantity": POWER,
                           "value": value, **SOURCE} | said)


def changed_limit(proposer, part, value=13.0, **said):
    return propose_part(**{"proposer": proposer, "change": Change.LIMIT_CHANGED, "part": part,
                           "limit": part.limits.get(), "seen": part.version,
                           "why": "Rev. 3 says so.", "value": value, **SOURCE} | said)


def family(curator, name="Board HB-12"):
    return BoardFamily.objects.create(name=name, slug="board-hb-12", curator=curator)
