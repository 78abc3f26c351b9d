"""Assess public versions under the rules in force, after rules, habits or scenarios changed.

The evidence of a version never changes, so what is kept is only which assessment stands beside it
now, and where a verdict word or the level moved, that it did. Slices are whole transactions and
what is known already is not computed again: a run that broke off goes on, and one run twice does
nothing the second time. Of a slice all is worked out before anything is locked; what was seen by
then is looked at once more behind the lock, so that nobody waits while the engine computes.
"""
from __future__ import annotations

from collections.abc import Iterable

from django.db import connection, transaction

from teardowns.models import Publication, StandingChange, Unit

from .active_rulebook import active_rulebook
from .assess_units import become_newest, newest_of
from .foresee_assessments import (
    Foresight,
    foresee,
    look_at,
    stored_assessments,
)
from .keep_assessments import keep_assessments
from .list_units import list_units

SLICE = 50          # units a transaction: some 0.1 s of SQLite's one writer
BEYOND = 2**63 - 1  # no unit has a larger number


def reassess_slice(after_pk: int = 0, size: int = SLICE, until_pk: int | None = None) -> int | None:
    """The units that follow this one, their public versions and then their rows as they are.

    The last unit of the slice, to go on from; None when it was the last of all, or of those
    `until` a number.
    """
    found = Unit.objects.filter(pk__gt=after_pk).order_by("pk")
    if until_pk is not None:
        found = found.filter(pk__lte=until_pk)
    units = list(found[:size])
    if units:
        ahead = _foreseen(units)
        if not _is_settled(ahead):
            _write_back([unit.pk for unit in units], ahead)
    return units[-1].pk if len(units) == size else None


@transaction.atomic
def reassess_publications(pks: Iterable[int | None]) -> int:
    """How many of these versions stand otherwise than before."""
    wanted = sorted(pk for pk in pks if pk is not None)
    units = Publication.objects.filter(pk__in=wanted).values("unit")
    list(Unit.objects.select_for_update().filter(pk__in=units).order_by("pk").values_list("pk"))
    rules = active_rulebook()
    seen = look_at([], _versions(wanted).select_for_update(), rules, rows=False)
    return _keep(foresee(seen, [], rules))


def _versions(pks):
    return Publication.objects.filter(pk__in=pks).order_by("pk").only(
        "unit", "standing", "standing_all")


def _foreseen(units: list[Unit], ahead: Foresight | None = None) -> Foresight:
    """What these units come to now; `ahead` itself where that was foreseen."""
    rules = active_rulebook()
    versions = _versions([unit.publication_id for unit in units if unit.publication_id])
    seen = look_at(units, versions.select_for_update() if ahead else versions, rules)
    if ahead is not None and ahead.seen == seen:
        return ahead
    return foresee(seen, units, rules, ahead.reports if ahead else None)


def _is_settled(ahead: Foresight) -> bool:
    """Whether there is nothing to write."""
    return (not ahead.moves and all(asked in ahead.stored for asked in ahead.wanted)
            and newest_of([asked.unit for asked in ahead.of_rows]) == {
                asked.unit: ahead.stored[asked] for asked in ahead.of_rows})


def _write_back(unit_pks: list[int], ahead: Foresight) -> None:
    _ = ahead.texts                         # written out before anybody waits
    with transaction.atomic():
        # All locked before the clock of the listing is, on which a publication may wait.
        found = Unit.objects.select_for_update().filter(pk__in=unit_pks).order_by("pk")
        _keep(_foreseen(list(found), ahead))


def _keep(ahead: Foresight) -> int:
    """Write what was foreseen of units that are locked; how many versions moved."""
    keep_assessments(ahead)
    known = stored_assessments(ahead.wanted, ahead.seen.rules)
    _stand(ahead, known)
    _tell(ahead, known)
    become_newest({asked.unit: known[asked] for asked in ahead.of_rows}, confirmed_only=False)
    units = [asked.unit for pk in ahead.moves for asked in ahead.of_versions[pk][:1]]
    list_units(units, {pk: moves.said for pk, moves in ahead.moves.items()})
    return len(ahead.moves)


def _stand(ahead: Foresight, known) -> None:
    table = connection.ops.quote_name(Publication._meta.db_table)
    rows = [(*(known[asked] for asked in ahead.of_versions[pk]), pk) for pk in ahead.moves]
    if rows:
        with connection.cursor() as cursor:
            cursor.executemany(f"UPDATE {table} SET standing_id = %s, standing_all_id = %s "
                               "WHERE id = %s", rows)


def _tell(ahead: Foresight, known) -> None:
    was = {pk: standing for pk, _, standing, _ in ahead.seen.versions}
    StandingChange.objects.bulk_create([
        StandingChange(publication_id=pk, was_id=was[pk], now_id=known[ahead.of_versions[pk][0]],
                       rulebook=ahead.seen.rules, words=moves.words, levels=moves.levels)
        for pk, moves in ahead.moves.items() if moves.words or moves.levels])


def ranges_after(after_pk: int, count: int) -> list[tuple[int, int]]:
    """So many ranges of about as many units each, for as many processes: (after, until)."""
    pks = Unit.objects.filter(pk__gt=after_pk).order_by("pk").values_list("pk", flat=True)
    total = pks.count()
    borders = sorted({pks[total * part // count - 1] for part in range(1, count)
                      if total * part // count})
    return list(zip([after_pk, *borders], [*borders, BEYOND], strict=True))
