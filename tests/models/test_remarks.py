import pytest
from django.utils import timezone

from teardowns.models import ReviewRemark
from tests.handing_in import correction_of, remark_on

pytestmark = pytest.mark.django_db


def open_on(unit):
    return list(ReviewRemark.objects.of_open_work(unit).unanswered())


def test_before_publication_the_remarks_on_the_unit_are_open(unit, mona):
    remark = remark_on(unit, mona)
    assert open_on(unit) == [remark]


def test_after_publication_only_those_on_the_open_correction_are(unit, alice, mona):
    remark_on(unit, mona)
    correction = correction_of(unit, alice)
    assert open_on(unit) == []
    on_it = remark_on(unit, mona, correction=correction)
    assert open_on(unit) == [on_it]


def test_those_on_a_correction_that_is_closed_are_not(unit, alice, mona):
    correction = correction_of(unit, alice)
    remark_on(unit, mona, correction=correction)
    correction.status, correction.closed_at = "discarded", timezone.now()
    correction.save()
    assert open_on(unit) == []


def test_an_answered_one_is_not_open(unit, mona):
    remark = remark_on(unit, mona)
    remark.answer, remark.answered_at = "It is 2 A on the box.", timezone.now()
    remark.save()
    assert open_on(unit) == []
