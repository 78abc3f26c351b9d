"""A two-person action in a sentence."""
import pytest
from django.utils import timezone

from teardowns.models import Approval
from teardowns.presenting.approval_sheet import approval_sheet, names_behind

pytestmark = pytest.mark.django_db


def sentence(approval):
    return approval_sheet(approval, names_behind([approval]), timezone.now())["what"]


def test_a_role_says_what_it_becomes_and_was(alice, mona):
    asked = Approval.objects.create(action="role", subject=f"user/{alice.pk}", asked_by=mona,
                                    code="trust", reason="Sound.",
                                    detail={"role": "administrator", "before": "reviewer"})
    assert sentence(asked) == "Make alice an administrator, now a reviewer."


def test_a_merge_names_both_records_and_a_gone_one_by_its_number(unit, mona):
    asked = Approval.objects.create(action="merge", subject=f"unit/{unit.pk}", asked_by=mona,
                                    code="duplicate", reason="Same.", detail={"into": 999})
    assert f"“Veltrice VQ-45” (record {unit.pk}) into “record 999”" in sentence(asked)


def test_names_take_two_queries(unit, alice, mona, django_assert_num_queries):
    asked = [Approval(action="role", subject=f"user/{alice.pk}", detail={}),
             Approval(action="merge", subject=f"unit/{unit.pk}", detail={"into": unit.pk})]
    with django_assert_num_queries(2):
        names_behind(asked * 50)
