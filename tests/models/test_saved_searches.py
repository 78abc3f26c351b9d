"""Searches that somebody keeps."""
import pytest
from django.db import IntegrityError, transaction

from teardowns.models import SavedSearch


@pytest.mark.django_db
def test_the_same_question_is_kept_once_a_person(alice, bob):
    for person in (alice, bob):
        SavedSearch.objects.create(person=person, name="a", digest="0" * 64)
    with pytest.raises(IntegrityError), transaction.atomic():
        SavedSearch.objects.create(person=alice, name="b", digest="0" * 64)
