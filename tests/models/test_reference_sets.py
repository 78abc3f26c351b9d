"""One reference set is in force at a time, each number and each content is there once."""
import pytest
from django.db import IntegrityError, transaction

from teardowns.models import ReferenceSet

pytestmark = pytest.mark.django_db


def new(number, **fields):
    return ReferenceSet.objects.create(**{
        "number": number, "digest": f"{number:064x}", "rulebook": "1+0a1b2c3d", "habits": {},
        "units": {}, "excluded": {}} | fields)


def refused(number, **fields):
    try:
        with transaction.atomic():
            new(number, **fields)
    except IntegrityError:
        return True
    return False


def test_two_at_once_cannot_be_in_force():
    new(1, is_active=True)
    assert refused(2, is_active=True)
    assert not refused(3)


def test_a_number_and_a_content_are_there_once():
    stored = new(1)
    assert refused(1, digest="f" * 64)
    assert refused(2, digest=stored.digest)


def test_its_version_names_number_and_content():
    assert new(7, digest="0123456789" + "0" * 54).version == "set7-01234567"
