"""What public units are compared by, in step with what is public: call it in that transaction.

What is found alike is worked out afterwards (find_likenesses); until then a unit that changed is
named as the like of nobody.
"""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping

from django.db import connection, transaction
from django.db.models import Q, QuerySet

from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.likeness.features import BOARD_STAGES, Feature, features, from_plain, plain
from teardowns.likeness.words import words
from teardowns.models import (
    CandidateState,
    HiddenKind,
    HiddenNow,
    Likeness,
    LikenessCount,
    LikenessWord,
    Lookalike,
    Photo,
    Publication,
)

SLICE = 500                  # rows a statement: SQLite allows a limited number of parameters


@transaction.atomic
def index_likeness(unit_pks: Iterable[int], *, anew: bool = False) -> int:
    """Bring what these units are compared by in line with what is public; how many moved.

    anew : also those whose version is known already, after features are read otherwise
    """
    pks = sorted(set(unit_pks))
    moved = 0
    for start in range(0, len(pks), SLICE):
        moved += _index(pks[start:start + SLICE], anew)
    return moved


def count_words() -> None:
    """Count anew how many units have each word; rarities are those of the last count."""
    likeness, word, count = (connection.ops.quote_name(model._meta.db_table)
                             for model in (Likeness, LikenessWord, LikenessCount))
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(f"DELETE FROM {count}")
        cursor.execute(f"INSERT INTO {count} (word, units) SELECT word, COUNT(*) FROM {word} "
                       "GROUP BY word HAVING COUNT(*) > 1")
        cursor.execute(f"INSERT INTO {count} (word, units) SELECT %s, COUNT(*) FROM {likeness}",
                       [LikenessCount.EVERY_UNIT])


def _index(pks, anew):
    public = Publication.objects.current().filter(unit__in=pks)
    current = dict(public.values_list("unit", "pk"))
    known = {one.unit_id: one for one in Likeness.objects.filter(unit__in=pks)}
    pictures = _pictures(pks)
    doubtful = [pk for pk, version in current.items()
                if anew or _moved(known.get(pk), version, pictures[pk])]
    found = {one: _features(one, pictures[one.unit_id])
             for one in public.filter(unit__in=doubtful).only("unit", "document")}
    new = {one: said for one, said in found.items() if _differs(known.get(one.unit_id), one, said)}
    gone = [pk for pk in known if pk not in current]
    changed = [one.unit_id for one in new if one.unit_id in known]
    _forget([*gone, *changed])
    pairs_of(gone).filter(state=CandidateState.OPEN).delete()
    _remember(new)
    return len(new) + len(gone)


def _moved(likeness, version, pictures):
    """Whether the unit has another version, or pictures came into sight or went out of it."""
    return (likeness is None or likeness.publication_id != version
            or {one.picture for one in from_plain(likeness.features)} - {None}
            != set(pictures.values()))


def _differs(likeness, publication, found):
    return (likeness is None or likeness.publication_id != publication.pk
            or from_plain(likeness.features) != found)


def _forget(pks: Collection[int]) -> None:
    """Take units out of the index and out of what others are said to be like."""
    if not pks:
        return
    say_no_more(pks, locked_with_mates(pks))
    LikenessWord.objects.filter(unit__in=pks).delete()
    Likeness.objects.filter(unit__in=pks).delete()


def locked_with_mates(pks: Collection[int], more: Iterable[int] = ()) -> dict[int, Likeness]:
    """What is said of these units and of all that they are paired with, locked in one order.

    Whoever calls it holds the units that it asks about: a pair that is kept refers to them.
    """
    about = pairs_of(pks).values_list("first", "second")
    wanted = {*pks, *more, *(pk for pair in about for pk in pair)}
    return Likeness.objects.select_for_update().order_by("unit_id").in_bulk(sorted(wanted))


def pairs_of(pks: Collection[int]) -> QuerySet[Lookalike]:
    return Lookalike.objects.filter(Q(first__in=pks) | Q(second__in=pks))


def say_no_more(pks: Collection[int], locked: dict[int, Likeness]) -> None:
    """No other unit's page names these units any more."""
    gone = set(pks)
    mates = [one for pk, one in locked.items() if pk not in gone]
    for mate in mates:
        mate.alike = [row for row in mate.alike if row[0] not in gone]
    Likeness.objects.bulk_update(mates, ["alike"], batch_size=SLICE)


def _remember(new: Mapping[Publication, tuple[Feature, ...]]) -> None:
    Likeness.objects.bulk_create(
        [Likeness(unit_id=one.unit_id, publication=one, features=plain(found))
         for one, found in new.items()], batch_size=SLICE)
    LikenessWord.objects.bulk_create(
        [LikenessWord(word=word, unit_id=one.unit_id)
         for one, found in new.items() for word in words(found)], batch_size=4 * SLICE)


def _features(publication, pictures) -> tuple[Feature, ...]:
    """Pictures count only where the version has them, at the stage that it gives them."""
    document = full(publication.document, unit_schema())
    shown = [(photo["key"], photo["stage"], pictures[photo["sha256"]])
             for photo in document["photos"] if photo["sha256"] in pictures]
    return features(document, shown)


def _pictures(pks) -> Mapping[int, dict[str, int]]:
    """By unit and file, the hash of photographs in sight; a drawing shows no board."""
    hidden = HiddenNow.objects.filter(kind=HiddenKind.PHOTO, ended_at=None, unit__in=pks)
    photos = Photo.objects.filter(
        unit__in=pks, published_at__isnull=False, set_aside=False, taken_down_at=None,
        drawn=False, perceptual_hash__isnull=False, stage__in=BOARD_STAGES,
    ).exclude(pk__in=hidden.values("object_id"))
    found: Mapping[int, dict[str, int]] = defaultdict(dict)
    for unit, sha256, bits in photos.values_list("unit", "sha256", "perceptual_hash"):
        found[unit][sha256] = bits or 0
    return found
