"""manage.py list_units: the listing in line with what is public, or what of it differs."""
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from teardowns.models import ListedUnit
from tests.published import published


def told(*args):
    out = StringIO()
    call_command("list_units", *args, stdout=out)
    return out.getvalue()


def test_it_lists_what_is_public_and_was_not_listed(unit):
    published(unit)
    ListedUnit.objects.all().delete()
    assert told() == "1 public unit is listed.\n"
    assert ListedUnit.objects.get().is_listed


def test_a_check_names_what_differs_and_changes_nothing(unit, capsys):
    published(unit)
    ListedUnit.objects.update(risk=4)
    with pytest.raises(CommandError, match="Run manage.py list_units"):
        told("--check")
    assert ListedUnit.objects.get().risk == 4


def test_a_check_of_a_sound_listing_says_so(unit):
    published(unit)
    assert told("--check") == "The listing says what is public.\n"
