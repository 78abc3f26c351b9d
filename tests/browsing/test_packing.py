"""What is read out of bytes is the index that was put into them."""
from hypothesis import given
from hypothesis import strategies as st

from teardowns.browsing.finding import find
from teardowns.browsing.packing import form_of, pack_index, unpack_index
from tests.browsing.reference import FACETS, SORTS, choices, indexed, quick, tables


@quick
@given(tables, tables, choices, st.sampled_from(["power", "age"]))
def test_it_answers_and_goes_on_as_before(first, later, asked, sort):
    index = indexed(first)
    back = unpack_index(pack_index(index), FACETS, SORTS)
    for one, other in ((index, back), (indexed(later, index), indexed(later, back))):
        found = [find(each, asked, sort=sort, size=7) for each in (one, other)]
        assert found[0] == found[1]
        rest = [find(each, asked, sort=sort, after=found[0].after) for each in (one, other)]
        assert rest[0] == rest[1]


def test_another_way_of_making_it_has_another_name(tmp_path):
    source = tmp_path / "reader.py"
    source.write_text("plain")
    form = form_of(FACETS, SORTS, source)
    assert form == form_of(FACETS, SORTS, source) != form_of(FACETS[1:], SORTS, source)
    source.write_text("other")
    assert form != form_of(FACETS, SORTS, source)
