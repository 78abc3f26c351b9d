"""Public units with invented boards, for tests of likeness and of families."""
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import Assessment, Component, Publication, StackLayer, Unit
from teardowns.services.index_likeness import index_likeness
from tests.likeness.made import component as made_component
from tests.likeness.made import document
from tests.likeness.made import winding as made_winding
from tests.published import published

BOARD = {"primary_controller": "UWK-12", "primary_switch": "KN650-15", "optocoupler": "JQ4-7K",
         "core": "EE16"}


def board(contributor: User, title: str, *, turns=100.0, withdrawn=(), **markings) -> Unit:
    """A public unit whose parts are BOARD, others where they are given."""
    unit = Unit.objects.create(contributor=contributor, title=title)
    for role, marking in (BOARD | markings).items():
        if role not in withdrawn:
            component(unit, role, marking)
    if turns is not None:
        winding(unit, "primary", 1, turns)
    published(unit)
    return unit


def strangers(contributor: User, number=5) -> list[Unit]:
    """Units that have nothing in common with others, which makes BOARD's parts rare."""
    return [stranger(contributor, n) for n in range(number)]


def stranger(contributor: User, n: int) -> Unit:
    """Public by its document alone: no engine runs for what is only to be compared."""
    unit = Unit.objects.create(contributor=contributor, title=f"Stranger {n}", status="published")
    said = document([made_component(role, f"{role}-{n}") for role in BOARD],
                    [made_winding("primary", 1, 20.0 + 9 * n)])
    standing = Assessment.objects.create(unit=unit, rulebook="none", evidence_digest=f"{unit.pk}",
                                         confirmed_only=True, payload={})
    unit.publication = Publication.objects.create(
        unit=unit, number=1, document=said, frozen={}, moderator=contributor,
        published_at=timezone.now(), title=unit.title,
        **dict.fromkeys(("assessment", "assessment_all", "standing", "standing_all"), standing))
    unit.save()
    index_likeness([unit.pk])
    return unit


def component(unit, role, marking="", **fields):
    return Component.objects.create(**{
        "unit": unit, "key": role.replace("_", "-"), "role": role, "marking": marking,
        "how": "read_off", "author": unit.contributor, "review_state": "confirmed"} | fields)


def winding(unit, name, position, turns, **fields):
    return StackLayer.objects.create(**{
        "unit": unit, "key": f"{name}-{position}", "kind": "winding", "winding": name,
        "position": position, "turns": turns, "author": unit.contributor,
        "review_state": "confirmed"} | fields)
