"""Two units whose boards look alike, as a moderator sees them: what speaks for and against."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from django.urls import reverse
from django.utils.safestring import SafeString

from teardowns.likeness.compare import Reason
from teardowns.likeness.sentences import in_short, of_plain, sentence
from teardowns.models import BoardFamily, BoardFamilyMember, Lookalike

from .library_texts import linked

MOST_REASONS = 12            # named in the reason of a proposal


@dataclass(frozen=True, slots=True)
class Side:
    pk: int
    address: str
    title: str
    families: list[str]              # "Board HB-12", "Board HB-13 (proposed)"


@dataclass(frozen=True, slots=True)
class Step:
    """What a moderator can do with a pair."""

    address: str
    words: str


@dataclass(frozen=True, slots=True)
class LookalikeRow:
    address: str
    score: str                       # "0.83"
    first: Side
    second: Side
    short_for: str
    short_against: str
    speaks_for: list[SafeString]
    speaks_against: list[SafeString]
    steps: list[Step]

    @property
    def sides(self) -> tuple[Side, Side]:
        return self.first, self.second


def lookalike_row(pair: Lookalike, members: Iterable[BoardFamilyMember]) -> LookalikeRow:
    """pair : with its units and its family; members : of both units, accepted or waiting, with
    their families"""
    members = list(members)
    first, second = (_side(unit, members) for unit in (pair.first, pair.second))
    pro, contra = (list(map(of_plain, rows)) for rows in (pair.speaks_for, pair.speaks_against))
    return LookalikeRow(
        reverse("lookalike", args=[pair.pk]), f"{pair.score:.2f}", first, second,
        in_short(pro), in_short(contra), _sentences(pair, pro), _sentences(pair, contra),
        _steps(pair, members))


def members_by_unit(members: Iterable[BoardFamilyMember]) -> Mapping[int, list[BoardFamilyMember]]:
    found: dict[int, list[BoardFamilyMember]] = {}
    for member in members:
        found.setdefault(member.unit_id, []).append(member)
    return found


def why_text(pair: Lookalike, limit: int = MOST_REASONS) -> str:
    """The beginning of a proposal's reason: what was found by comparison, with its rows."""
    pro, contra = (list(map(of_plain, rows)) for rows in (pair.speaks_for, pair.speaks_against))
    against = _plain_lines(pair, contra[:limit]) or ["Nothing was found against it, as far as both "
                                                     "were looked at."]
    return "\n".join([
        f"Unit {pair.first_id} and unit {pair.second_id} look alike (likeness {pair.score:.2f}).",
        "", "For one board:", *_plain_lines(pair, pro[:limit]), "", "Against it:", *against])


def _side(unit, members):
    named = [member.family.name + (" (proposed)" if member.is_open else "")
             for member in members if member.unit_id == unit.pk]
    return Side(unit.pk, reverse("unit_detail", args=[unit.pk]), unit.title or f"unit {unit.pk}",
                named)


def _sentences(pair, reasons: Sequence[Reason]) -> list[SafeString]:
    return [linked(line) for line in _plain_lines(pair, reasons)]


def _plain_lines(pair, reasons):
    here, there = f"in unit {pair.first_id}", f"in unit {pair.second_id}"
    return [f"{sentence(one, here, there)} {_refs(pair, one)}" for one in reasons]


def _refs(pair, reason):
    """`(3/component/core, 12/component/core)`: rows that a text can name."""
    named = [f"{unit}/{ref}" for unit, refs in ((pair.first_id, reason.our_refs),
                                                (pair.second_id, reason.their_refs))
             for ref in refs[:2]]
    return f"({', '.join(named)})"


def _steps(pair, members) -> list[Step]:
    families = {member.family_id: member.family for member in members}
    if pair.family is not None:
        families[pair.family_id] = pair.family
    steps = [Step(_propose(family, pair, unit), f"Propose unit {unit} for {family.name}")
             for family in families.values() for unit in (pair.first_id, pair.second_id)
             if not any(member.family_id == family.pk and member.unit_id == unit
                        for member in members)]
    if families:
        return steps
    return [Step(f"{reverse('family_edit')}?{urlencode({'alike': pair.pk})}",
                 "Open a family for them")]


def _propose(family: BoardFamily, pair, unit):
    return (f"{reverse('family_propose', args=[family.slug])}?"
            f"{urlencode({'unit': unit, 'alike': pair.pk})}")
