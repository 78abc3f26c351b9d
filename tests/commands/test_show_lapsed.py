"""The command and the job show again what nobody confirmed; once, and nothing before its time."""
from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command
from django.utils import timezone

from teardowns import jobs
from teardowns.models import HiddenNow, Unit
from teardowns.services.hide_now import hide_now
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def hidden(unit, rita):
    published(unit)
    return hide_now(by=rita, about=f"unit/{unit.pk}", reason="A face in photo 1.")


def said():
    out = StringIO()
    call_command("show_lapsed", stdout=out)
    return out.getvalue()


def test_before_a_day_nothing_is_shown(hidden):
    assert said() == "0 shown again.\n" and not Unit.objects.published().exists()


def test_after_a_day_it_is_shown_once(hidden):
    HiddenNow.objects.update(until=timezone.now() - timedelta(seconds=1))
    assert said() == "1 shown again.\n" and Unit.objects.published().exists()
    assert said() == "0 shown again.\n"


def test_the_job_does_the_same(hidden):
    HiddenNow.objects.update(until=timezone.now() - timedelta(seconds=1))
    jobs.lapse_hidden()
    assert Unit.objects.published().exists()
