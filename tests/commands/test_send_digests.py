"""The command says how many went out, and so does nothing a second time."""
from io import StringIO

import pytest
from django.core.management import call_command

from teardowns import jobs
from teardowns.services.notify import notify

pytestmark = pytest.mark.django_db


def said():
    out = StringIO()
    call_command("send_digests", stdout=out)
    return out.getvalue()


def test_it_says_how_many_went_out(alice, unit, mailoutbox):
    notify([alice], "published", unit=unit)
    assert said() == "1 sent, 0 not sent.\n" and said() == "0 sent, 0 not sent.\n"
    assert len(mailoutbox) == 1


def test_the_job_does_the_same(alice, unit, mailoutbox):
    notify([alice], "published", unit=unit)
    for _ in range(2):
        jobs.send_digests()
    assert len(mailoutbox) == 1
