from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import PartProposal
from teardowns.services.library_waiting import library_waiting
from tests.library import listed, new_limit

pytestmark = pytest.mark.django_db


def test_what_waits_is_counted_with_the_age_of_the_oldest(alice, mona, django_assert_num_queries):
    part = listed(mona)
    old = new_limit(alice, part)
    new_limit(alice, part, 14.0, page="5")
    PartProposal.objects.filter(pk=old.pk).update(proposed_at=timezone.now() - timedelta(days=3))
    with django_assert_num_queries(2):
        waiting = library_waiting()
    assert waiting["parts"].count == 2 and waiting["parts"].age.days == 3
    assert waiting["families"].count == 0 and waiting["families"].age == timedelta(0)


def test_a_moderator_s_own_proposals_are_not_theirs_to_decide(alice, mona, milo):
    new_limit(mona, listed(milo))
    assert library_waiting(mona)["parts"].count == 0
    assert library_waiting(milo)["parts"].count == 1


def test_what_is_decided_waits_no_more(alice, mona):
    new_limit(alice, listed(mona))
    PartProposal.objects.update(state="taken_back")
    assert library_waiting()["parts"].count == 0
