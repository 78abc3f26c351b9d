"""Words follow what is public, whatever made it so."""
import pytest

from teardowns.models import Change, Findable, Part, SearchTerm, SearchText, Status
from teardowns.services.decide_part import accept_part
from teardowns.services.edit_family import create_family, rename_family
from teardowns.services.index_words import (
    differing_words,
    index_families,
    index_parts,
    index_words,
    rebuild_words,
)
from teardowns.services.propose_part import propose_part
from teardowns.services.search import search
from tests.library import SOURCE, contain, listed
from tests.published import published

pytestmark = pytest.mark.django_db
TEXTS = {"description": "", "evidence_for": "", "evidence_against": ""}


def rows(kind, pk):
    return SearchText.objects.of(kind, [pk])


def differing():
    return [name for _, _, found in differing_words() for name in found]


def test_a_draft_is_not_found_and_a_published_unit_is(unit):
    index_words([unit.pk])
    assert search("veltrice").units == []
    published(unit)
    assert search("veltrice").units == [unit.pk]


@pytest.mark.parametrize("gone", [{"status": Status.WITHDRAWN},
                                  {"quarantined_at": "2026-01-01T00:00Z"}])
def test_what_is_out_of_sight_is_not_found(unit, gone):
    published(unit)
    type(unit).objects.filter(pk=unit.pk).update(**gone)
    index_words([unit.pk])
    assert search("veltrice").units == [] and not rows(Findable.UNIT, unit.pk)


def test_words_are_those_of_the_version_that_stands_and_not_of_the_rows(unit):
    published(unit)
    type(unit).objects.filter(pk=unit.pk).update(title="Changed since")
    index_words([unit.pk])
    assert search("changed").units == []


def test_a_changed_version_is_found_by_its_new_words_alone(unit):
    published(unit)
    unit.title = "Ombrell cube"
    unit.save()
    published(unit)
    assert search("ombrell").units == [unit.pk]
    assert search("veltrice").units == []


def test_a_part_is_found_once_it_is_listed(alice, mona):
    part = Part.objects.create(marking="KR905", curator=alice, function="charge pump")
    index_parts([part.pk])
    assert search("kr905").parts == []
    proposal = propose_part(proposer=alice, change=Change.PART, marking="KR905", why="New.",
                            function="flyback controller", **SOURCE)
    accept_part(moderator=mona, proposal_pk=proposal.pk, version=1, part_version=None,
                reason="Looked up.")
    assert search("kr905").parts == search("flyback").parts == [part.pk]


def test_a_part_that_a_published_unit_cites_is_found(unit, mona):
    part = Part.objects.create(marking="KR905", curator=unit.contributor)
    contain(unit, part)
    published(unit, mona)
    assert search("kr905").parts == [part.pk]


def test_the_sources_of_a_limit_are_words_of_its_part(mona):
    part = listed(mona)
    index_parts([part.pk])
    assert search('"rev 2"').parts == [part.pk]


def test_a_family_is_found_by_its_name_and_after_it_was_renamed_by_that(mona):
    family = create_family(moderator=mona, name="Board VB-2", **TEXTS)
    assert search("vb2").families == [family.pk]
    rename_family(moderator=mona, family_pk=family.pk, version=1, name="Board KX-9", **TEXTS)
    assert search("kx9").families == [family.pk]
    assert search("vb2").families == []


def test_words_of_three_letters_and_names_are_learnt_once(mona):
    family = create_family(moderator=mona, name="Board VB-2", **TEXTS)
    index_families([family.pk])
    assert dict(SearchTerm.objects.values_list("shown", "is_name")) == {
        "Board": False, "Board VB-2": True}


def test_what_differs_is_named_and_a_rebuild_puts_it_right(unit, mona):
    published(unit)
    rows(Findable.UNIT, unit.pk).delete()
    part = listed(mona)
    index_parts([part.pk])
    SearchText.objects.filter(pk=rows(Findable.PART, part.pk).get().pk).update(body="old")
    SearchText.objects.create(id=4 * (unit.pk + 700), title="Nobody's")
    assert differing() == [
        f"unit {unit.pk}: not in the index",
        f"unit {unit.pk + 700}: in the index, but not public",
        f"part {part.pk}: the index holds an older text"]
    for done, count in rebuild_words():
        assert 0 < done <= count
    assert differing() == [] and done == count


def test_a_rebuild_forgets_words_that_nothing_has(mona):
    SearchTerm.objects.create(key="gone", backwards="enog", shown="gone")
    list(rebuild_words())
    assert not SearchTerm.objects.exists()
