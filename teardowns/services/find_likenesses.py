"""Look for the like of units that are new in the index: candidates for a family, joined by nobody.

A pair is a proposal to people. Nothing here makes a unit a member of a family, and nothing passes
from one unit's evidence to another's.
"""
from __future__ import annotations

from django.db import transaction
from django.db.models import Q

from teardowns.likeness.sentences import in_short, to_plain
from teardowns.models import CandidateState, Likeness, Lookalike, Unit

from .index_likeness import locked_with_mates, pairs_of, say_no_more
from .similar_units import Similar, similar_units

PROPOSED, SHOWN = 0.6, 0.7   # score from which moderators see a pair, and everybody; our own choice
NAMED = 3                    # units that a unit's page names
SLICE = 200                  # units a run: an hour's worth


def find_likenesses(most: int = SLICE) -> int:
    """How many units were looked at; the rest waits for the next run."""
    waiting = list(Likeness.objects.filter(is_new=True).order_by("unit").values_list(
        "unit", flat=True)[:most])
    for pk in waiting:
        find_likeness(pk)
    return len(waiting)


def find_likeness(unit_pk: int) -> list[Similar]:
    """Keep the pairs of one unit anew, and what its page and its likes' pages say of them."""
    read = Likeness.objects.filter(unit=unit_pk).values_list("publication", flat=True).first()
    found = similar_units(unit_pk, least=PROPOSED)
    with transaction.atomic():
        # Units first, as whoever publishes one does: the pairs kept below refer to them.
        pks = [unit_pk, *(one.unit_pk for one in found)]
        list(Unit.objects.select_for_update().filter(pk__in=pks).order_by("pk").values("pk"))
        locked = locked_with_mates([unit_pk], pks)
        mine = locked.get(unit_pk)
        if mine is None or mine.publication_id != read:
            return []                    # it moved meanwhile and is looked at in the next run
        say_no_more([unit_pk], locked)
        apart = _kept_apart(unit_pk)
        found = [one for one in found if one.unit_pk in locked and one.unit_pk not in apart]
        _keep(mine, found, locked)
    return found


def _keep(mine, found, locked):
    pairs = [_pair(mine.unit_id, one) for one in found]
    Lookalike.objects.bulk_create(pairs, update_conflicts=True, unique_fields=["first", "second"],
                                  update_fields=["score", "speaks_for", "speaks_against"])
    kept = [one.unit_pk for one in found]
    pairs_of([mine.unit_id]).filter(state=CandidateState.OPEN).exclude(
        Q(first__in=kept) | Q(second__in=kept)).delete()
    mine.alike = [_said(one.unit_pk, one) for one in found[:NAMED] if one.score >= SHOWN]
    mine.is_new = False
    for one in found:
        mate = locked[one.unit_pk]
        told = [row for row in mate.alike if row[0] != mine.unit_id]
        told += [_said(mine.unit_id, one)] if one.score >= SHOWN else []
        mate.alike = sorted(told, key=lambda row: (-row[1], row[0]))[:NAMED]
    Likeness.objects.bulk_update([mine, *(locked[one.unit_pk] for one in found)],
                                 ["alike", "is_new"])


def _kept_apart(unit_pk):
    """Units that a moderator found to be another board."""
    decided = Lookalike.objects.filter(state=CandidateState.APART)
    return {*decided.filter(first=unit_pk).values_list("second", flat=True),
            *decided.filter(second=unit_pk).values_list("first", flat=True)}


def _pair(unit_pk, one):
    """Told from the older record: its side is what `speaks_for` calls ours."""
    first, second = sorted((unit_pk, one.unit_pk))
    reasons = [[_turned(to_plain(each), first != unit_pk) for each in told]
               for told in (one.comparison.speaks_for, one.comparison.speaks_against)]
    return Lookalike(first_id=first, second_id=second, score=one.score,
                     speaks_for=reasons[0], speaks_against=reasons[1])


def _turned(row, is_turned):
    slot, ours, theirs, weight, our_refs, their_refs = row
    return [slot, theirs, ours, weight, their_refs, our_refs] if is_turned else row


def _said(pk, one):
    return [pk, round(one.score, 3), in_short(one.comparison.speaks_for)]
