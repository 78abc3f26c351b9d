import pytest

from teardowns.models import UnsavedSection
from teardowns.services.keep_typed import discard_typed, keep_typed

pytestmark = pytest.mark.django_db


def test_what_was_typed_last_is_kept_as_typed_without_the_token(alice, unit):
    keep_typed(unit, alice, "ports", {"a": "1"})
    keep_typed(unit, alice, "ports", {"a": "4u7 or so", "csrfmiddlewaretoken": "secret"})
    assert UnsavedSection.objects.get().fields == {"a": "4u7 or so"}


def test_discarding_touches_only_one_s_own_section(alice, unit):
    keep_typed(unit, alice, "ports", {"a": "1"})
    keep_typed(unit, alice, "load", {"a": "1"})
    discard_typed(unit, alice, "ports")
    assert UnsavedSection.objects.get().section == "load"
