import pytest

from teardowns.services.evidence_refs import MOST, check_refs
from teardowns.services.proposals import Refused
from tests.library import contain, listed
from tests.published import published

pytestmark = pytest.mark.django_db


def test_a_row_of_a_draft_is_named_by_nobody(unit, mona):
    contain(unit, listed(mona, watts=None))
    text = f"See {unit.pk}/component/ctrl."
    with pytest.raises(Refused):
        check_refs("why", text)
    published(unit)
    check_refs("why", text)


def test_many_rows_cost_a_query_a_kind(unit, django_assert_num_queries):
    text = " ".join(f"{unit.pk}/{kind}/x{n}" for kind in ("component", "claim") for n in range(20))
    with django_assert_num_queries(2), pytest.raises(Refused):
        check_refs("why", text)


def test_more_rows_than_anybody_follows_are_refused():
    with pytest.raises(Refused, match="as many as"):
        check_refs("why", " ".join(f"1/component/c{n}" for n in range(MOST + 1)))
