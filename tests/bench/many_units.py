"""Many invented public units, written into the database: 10 000, 100 000, 1 000 000.

python -m tests.bench.many_units [count]

Into the database of DATABASE_URL or UNDERPLATE_DATA_DIR, which has to hold no units; its tables are
made where there are none. All are copies of 60 units that went through the engine, each with a
maker, model, markings, mass, dates and reach of its own: its page, search, list and comparison are
those of any unit. Some were withdrawn, some corrected, some belong to board families. The same
count gives the same units. Beyond 100 000 (a whole number of times that) the others are multiplied
inside the database: lists and searches find them, a page of their own they do not have.
"""
from __future__ import annotations

import os
import sys
import time
from datetime import UTC, datetime, timedelta
from random import Random

if __name__ == "__main__":
    import django

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
    django.setup()

from django.conf import settings  # noqa: E402
from django.core.management import call_command  # noqa: E402
from django.db import connection, transaction  # noqa: E402

from core.accounts.models import Role, User  # noqa: E402
from teardowns.models import (  # noqa: E402
    BoardFamily,
    BoardFamilyMember,
    Component,
    Correction,
    ListedUnit,
    Publication,
    SearchTerm,
    Status,
    Unit,
)
from teardowns.services.assess_units import assess_units  # noqa: E402
from teardowns.services.browse import pack_listing  # noqa: E402
from teardowns.services.import_unit import import_unit  # noqa: E402
from teardowns.services.index_likeness import count_words  # noqa: E402
from teardowns.services.index_words import index_families  # noqa: E402
from teardowns.services.list_units import list_units  # noqa: E402
from teardowns.services.listing_clock import hold_clock, raise_clock  # noqa: E402
from teardowns.services.move_work import move  # noqa: E402
from teardowns.services.publish_unit import keep_version  # noqa: E402
from tests.bench.invented.copies import Mould, Moulds  # noqa: E402
from tests.bench.invented.documents import archetypes  # noqa: E402
from tests.bench.invented.tables import (  # noqa: E402
    Writer,
    count_on,
    next_pk,
    search_index_made_after,
    stored,
    time_text,
    unguarded,
)
from tests.bench.invented.tiles import multiply  # noqa: E402

MOULDS, FAMILIES = 60, 300
MOST_WHOLE = 100_000
FIRST_PUBLISHED, UNTIL = datetime(2023, 3, 1, 9, tzinfo=UTC), timedelta(days=1300)
WITHDRAWN, CORRECTED, IN_A_FAMILY = 100, 50, 5        # one of so many


def make_units(count: int, moulds: int = MOULDS, times: int = 1) -> list[int]:
    """The numbers of `count` public units that were made; others besides are withdrawn.

    times : how often what lists and searches read of them is there in the end
    """
    with transaction.atomic():
        people = _people()
        pks = _published(archetypes(min(moulds, count)), people)
        families = _families(pks, people, count)
        with search_index_made_after():
            pks += _copied([Mould(pk) for pk in pks], count - len(pks), families)
            multiply(times - 1)
        count_words()
    return pks


def _people():
    return {role: User.objects.create_user(f"invented-{role}", role=role)
            for role in (Role.CONTRIBUTOR, Role.MODERATOR)}


def _published(documents, people) -> list[int]:
    """Units by the way that each comes to be one."""
    contributor, moderator = people[Role.CONTRIBUTOR], people[Role.MODERATOR]
    units = [import_unit(document, contributor, Status.IN_REVIEW) for document in documents]
    assess_units(units, confirmed_only=True)          # all at once is many times as quick
    assess_units(units)
    for at, unit in enumerate(units):
        move(unit, "publish", moderator)
        keep_version(unit, moderator, published_at=FIRST_PUBLISHED - timedelta(hours=at))
    return [unit.pk for unit in units]


def _families(pks, people, count) -> list[tuple[BoardFamily, int]]:
    """Each with the number of the mould whose copies belong to it."""
    moderator = people[Role.MODERATOR]
    number = min(FAMILIES, max(2, count // 30))
    families = BoardFamily.objects.bulk_create([
        BoardFamily(name=f"Board {at + 1:03}", slug=f"board-{at + 1:03}", curator=moderator,
                    description="Invented.") for at in range(number)])
    index_families([family.pk for family in families])
    for at, family in enumerate(families[:len(pks)]):
        BoardFamilyMember.objects.create(
            family=family, unit_id=pks[at], proposer=people[Role.CONTRIBUTOR], state="accepted",
            why="The same print on the board.", decided_by=moderator, decided_at=FIRST_PUBLISHED,
            reason="Compared.")
    list_units(pks)
    return [(family, at % len(pks)) for at, family in enumerate(families)]


def _copied(moulds, count, families) -> list[int]:
    draw, writer = Random(count), Writer()
    Moulds.known = set(SearchTerm.objects.values_list("key", flat=True))
    unit, publication = next_pk(Unit), next_pk(Publication)
    Moulds.components = next_pk(Component) - unit
    changed = raise_clock(hold_clock())
    of_mould = {number: [family for family, of in families if of == number]
                for number in range(len(moulds))}
    member = stored(BoardFamilyMember, pk=BoardFamilyMember.objects.first().pk)
    listed, step = [], UNTIL / max(count, 1)
    at, made = FIRST_PUBLISHED, 0
    member_pk = next_pk(BoardFamilyMember)
    while len(listed) < count:
        number = int(len(moulds) * draw.random())
        is_listed = made % WITHDRAWN != WITHDRAWN - 1
        joins = of_mould[number] and draw.randrange(IN_A_FAMILY) == 0
        joined = (draw.choice(of_mould[number]),) if joins else ()
        own = moulds[number].draw(draw, unit + made, publication + made,
                                  at + draw.random() * step, is_listed,
                                  tuple(family.slug for family in joined))
        moulds[number].write(own, writer, changed)
        for family in joined:
            writer.add(BoardFamilyMember, member | {
                "id": member_pk, "family_id": family.pk, "unit_id": own.pk})
            member_pk += 1
        if is_listed:
            listed.append(own.pk)
        made, at = made + 1, at + step
    writer.flush()
    _correct(listed[::CORRECTED], publication + made)
    count_on(Unit, Publication, BoardFamilyMember, Component, SearchTerm)
    return listed


def _correct(pks, publication):
    """An older version of some units, and the correction that led to the one that stands."""
    writer = Writer()
    correction = next_pk(Correction)
    for at, pk in enumerate(pks):
        now = stored(Publication, current_for__pk=pk)
        earlier = time_text(FIRST_PUBLISHED - timedelta(days=1))
        writer.add(Publication, now | {"id": publication + at, "published_at": earlier})
        writer.add(Correction, {
            "id": correction + at, "unit_id": pk, "author_id": now["moderator_id"],
            "base_id": publication + at, "reason": "The plate was read again.",
            "status": "published", "opened_at": earlier, "changed_at": earlier,
            "submitted_at": earlier, "closed_at": now["published_at"], "outcome": "",
            "proposal": None})
        Publication.objects.filter(pk=now["id"]).update(number=2)
    writer.flush()
    for at, pk in enumerate(pks):
        Publication.objects.filter(current_for__pk=pk).update(correction=correction + at)
    count_on(Publication, Correction)


def make_tables() -> None:
    """Those of the models as they are now, without the steps that led to them."""
    class TablesFromModels(dict):
        def __contains__(self, app):
            return True

        def __getitem__(self, app):
            return None

    settings.MIGRATION_MODULES = TablesFromModels()
    call_command("migrate", run_syncdb=True, verbosity=0)


def main(count: int = 10_000) -> None:
    begun = time.perf_counter()
    if "teardowns_unit" not in connection.introspection.table_names():
        make_tables()
    if Unit.objects.exists():
        raise SystemExit("There are units in this database: set UNDERPLATE_DATA_DIR to a new "
                         "folder, or DATABASE_URL to an empty database.")
    whole = min(count, MOST_WHOLE)
    if count % whole:
        raise SystemExit(f"Beyond {MOST_WHOLE}, name a multiple of it.")
    with unguarded():
        make_units(whole, times=count // whole)
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")
    pack_listing()
    print(f"{ListedUnit.objects.listed().count()} public units in "
          f"{time.perf_counter() - begun:.0f} s.")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
