"""How often people met."""
import pytest
from django.utils import timezone

from teardowns.models import Correction, Review
from teardowns.services.reviewer_pairs import reviewer_pairs
from tests.published import published

pytestmark = pytest.mark.django_db


def test_closed_reviews_count_for_the_author_of_the_work(unit, alice, bob, rita):
    correction = Correction.objects.create(unit=unit, author=bob, base=published(unit),
                                           reason="Mass")
    for ending, work in (("done", None), ("done", None), ("done", correction), ("released", None)):
        Review.objects.create(unit=unit, reviewer=rita, ending=ending, correction=work,
                              closed_at=timezone.now())
    assert reviewer_pairs([alice.pk, bob.pk]) == {alice.pk: {rita.pk: 2}, bob.pk: {rita.pk: 1}}
