"""A unit in one state, with everything that an address can name, and ten people around it."""
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path
from typing import Any

from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.utils import timezone

from core.accounts.models import Role, User
from teardowns.models import (
    Appeal,
    BoardFamilyMember,
    Claim,
    Comment,
    Correction,
    Decision,
    HiddenNow,
    InsulationObservation,
    Lookalike,
    Measurement,
    Photo,
    PhotoDerivative,
    PhotoReading,
    PhotoScale,
    PhotoUpload,
    RecordingUpload,
    Reply,
    ReplyVersion,
    Report,
    Review,
    Unit,
)
from teardowns.services.photo_files import original_name
from teardowns.services.state_reasons import give_reasons
from tests.cast import person
from tests.handing_in import with_plate
from tests.library import family, listed, new_limit
from tests.photographs import photograph
from tests.published import published
from tests.recordings import lay_out, read_whole, take_in, thermal_log

PUBLIC_ONCE = ("published", "corrected", "quarantined", "withdrawn")
SHA = "a" * 64
POINTS = [[10, 10], [300, 10], [300, 200], [10, 200]]


@dataclass
class World:
    state: str
    folder: Path
    people: dict[str, User | None] = field(default_factory=dict)
    unit: Unit | None = None
    things: dict[str, Any] = field(default_factory=dict)      # what addresses and bodies name


def world_in(state: str, folder: Path) -> World:
    """Work that never became public stands in its own state; the others were published twice."""
    world = World(state, folder)
    _people(world)
    unit = world.unit = Unit.objects.create(contributor=world.people["owner"],
                                            title="Veltrice VQ-45", maker="Veltrice")
    _evidence(world)
    if state in PUBLIC_ONCE:
        for _ in range(2):
            published(unit, world.people["publisher"])
            Unit.objects.filter(pk=unit.pk).update(version=unit.version)
    _reach(world)
    _around(world)
    Review.objects.create(unit=unit, reviewer=world.people["holder"], no_conflict=True,
                          correction=world.things.get("correction"))
    unit.refresh_from_db()
    return world


def _people(world):
    people = world.people
    people["nobody"] = None
    for name, role in (("owner", Role.CONTRIBUTOR), ("other", Role.CONTRIBUTOR),
                       ("reviewer", Role.REVIEWER), ("holder", Role.REVIEWER),
                       ("moderator", Role.MODERATOR), ("administrator", Role.ADMINISTRATOR),
                       ("publisher", Role.MODERATOR)):
        people[name] = person(name, role)
    people["unverified"] = person("unverified", verified=False)
    people["suspended"], people["no_factor"] = people["owner"], people["holder"]
    people["suspended_holder"] = people["holder"]
    people["suspended_moderator"] = people["moderator"]


def _evidence(world):
    unit, owner = with_plate(world.unit, world.people["owner"]), world.people["owner"]
    common = {"unit": unit, "author": owner, "review_state": "confirmed"}
    Claim.objects.create(**common, key="out", kind="output", text="5V 2A", voltage_low=5.0,
                         voltage_high=5.0, current=2.0)
    Measurement.objects.create(**common, key="mass", quantity="mass_total", value=0.05)
    Measurement.objects.create(**common, key="bulk", quantity="bulk_capacitance", value=1e-5)
    photo = Photo.objects.create(
        unit=unit, key="board", sha256=SHA, author=owner, width=400, height=300, byte_size=4,
        media_type="image/png", stage="solder_side", perceptual_hash=1)
    storages["originals"].save(original_name(SHA), ContentFile(_board(world)))
    storages["pictures"].save("board/400.webp", ContentFile(_webp(world)))
    PhotoDerivative.objects.create(photo=photo, width=400, height=300, media_type="image/webp",
                                   path="board/400.webp")
    scale = PhotoScale.objects.create(photo=photo, points=POINTS, lengths=[0.0856, 0.05398],
                                      length_uncertainty=1e-4, author=owner)
    gap = InsulationObservation.objects.create(
        **common, key="slot", path="creepage", place="slot", value=0.004, photo=photo,
        uncertainty=1e-4, uncertainty_kind="standard", method="photo_scale")
    reading = PhotoReading.objects.create(
        photo=photo, scale=scale, shows=gap.ref, shape="line", points=[[20, 20], [90, 20]],
        value=0.004, uncertainty=1e-4, budget=[], author=owner)
    log = read_whole(lay_out(owner, take_in(owner, unit, thermal_log(world.folder, rows=60))))
    world.things |= {"photo": photo, "reading": reading, "log": log}
    world.things["upload"] = PhotoUpload.objects.create(unit=unit, author=owner, name="a.png",
                                                        byte_size=9)
    world.things["log_upload"] = RecordingUpload.objects.create(unit=unit, author=owner,
                                                                name="a.csv", byte_size=9)


def _board(world):
    return photograph(world.folder, "board.png").read_bytes()


def _webp(world):
    return photograph(world.folder, "board.webp").read_bytes()


def _reach(world):
    """The state itself, whatever way leads there: what is asked is who may do what in it."""
    unit, state, now = world.unit, world.state, timezone.now()
    unit.refresh_from_db()
    if state == "corrected":
        world.things["correction"] = Correction.objects.create(
            unit=unit, author=world.people["other"], base=unit.publication, reason="It is 1 A.")
    elif state == "quarantined":
        Unit.objects.filter(pk=unit.pk).update(quarantined_at=now)
    elif state != "published":
        Unit.objects.filter(pk=unit.pk).update(status=state, submitted_at=now)
    if state == "withdrawn":
        unit.publications.filter(pk=unit.publication_id).update(
            withdrawn_at=now, withdrawal_code="not_this_unit",
            withdrawal_reason="Photo 2 shows another board.")


def _around(world):
    """What is said about the unit, and the library: each by somebody whose right to it is known."""
    people, unit, now = world.people, world.unit, timezone.now()
    part, board = listed(people["publisher"]), family(people["publisher"])
    comment = Comment.objects.create(unit=unit, author=people["owner"], text="Mind the slot.",
                                     written_at=now)
    hidden = Comment.objects.create(unit=unit, author=people["owner"], text="A name.",
                                    written_at=now)
    decided = _statement(world, Decision.SEND_BACK)
    appealed = _statement(world, Decision.DECLINE)
    world.things |= {
        "part": part, "family": board, "comment": comment,
        "proposal": new_limit(people["other"], part),
        "member": BoardFamilyMember.objects.create(family=board, unit=unit, why="Same print.",
                                                   proposer=people["other"]),
        "lookalike": Lookalike.objects.create(
            first=unit, second=Unit.objects.create(contributor=people["other"]), score=0.8),
        "reply": _reply(world),
        "report": Report.objects.create(about=f"unit/{unit.pk}", unit=unit, code="not_this_unit",
                                        text="Another board.", harm=1, due_at=now),
        "hidden": HiddenNow.objects.create(kind="comment", object_id=hidden.pk, unit=unit,
                                           by=people["publisher"], reason="A name.",
                                           until=now + timedelta(hours=9)),
        "statement": decided,
        "appeal": Appeal.objects.create(statement=appealed, author=people["owner"], text="No.",
                                        due_at=now + timedelta(days=14)),
    }


def _statement(world, decision):
    return give_reasons(decision=decision, code="other", facts="The plate is unreadable.",
                        subject=f"unit/{world.unit.pk}", unit=world.unit,
                        addressee=world.people["owner"], by=world.people["publisher"])


def _reply(world):
    reply = Reply.objects.create(unit=world.unit, author_name="Veltrice Ltd",
                                 entered_by=world.people["other"])
    ReplyVersion.objects.create(reply=reply, number=1, text="We changed it.",
                                received_at=timezone.now())
    return reply
