"""What the demo has once its units are there: a board family, likenesses, bulk data."""
from __future__ import annotations

import json
from typing import Any

from core.accounts.models import User
from teardowns.models import BoardFamily, Unit

from .compare_sisters import compare_sisters
from .edit_family import create_family, decide_member, propose_member
from .export_data import begin_export, export_slice, finish_export
from .find_likenesses import find_likenesses
from .load_demo import FIXTURES

SISTERS = ("brethuld-b20c", "oddmarl-haste20")           # as their demo documents are called
FAMILY: dict[str, Any] = {
    "name": "20 W flyback around UWK-25",
    "description": "One USB-C port, a primary controller UWK-25 and a rectifier KL100-12 on a "
                   "single-sided board.",
    "evidence_for": "Controller, rectifier, fuse and turns are the same in both units.",
    "evidence_against": "",
}
WHY = "The same controller, rectifier, fuse and turns; nothing that was read differs."
REASON = "Both boards were compared row by row: nothing that was read differs."


def finish_demo() -> None:
    """Safe to run again, and quick then."""
    while find_likenesses():
        pass
    _family()
    while compare_sisters():
        pass
    _export()


def _family():
    """Opened by the demo's moderator, with two units that its contributor proposed."""
    people = {user.username: user for user in User.objects.filter(username__in=("alma", "moss"))}
    if len(people) < 2 or BoardFamily.objects.filter(name=FAMILY["name"]).exists():
        return
    family = create_family(moderator=people["moss"], **FAMILY)
    for unit in Unit.objects.published().filter(uid__in=_uids()).order_by("pk"):
        member = propose_member(proposer=people["alma"], family_pk=family.pk, unit_pk=unit.pk,
                                why=WHY)
        decide_member(moderator=people["moss"], member_pk=member.pk, version=member.version,
                      accepted=True, reason=REASON)


def _uids():
    found = [path for path in FIXTURES.glob("*.json") if path.stem[3:] in SISTERS]
    return [json.loads(path.read_text("utf-8"))["unit"]["uid"] for path in found]


def _export():
    export = begin_export()
    if export is None:
        return
    after: int | None = 0
    while after is not None:
        after = export_slice(export, after)
    finish_export(export)
