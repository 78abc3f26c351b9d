"""The second factor of a demo account, by command."""
import time
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from core.accounts.models import User
from tests.core.accounts.pages import CODE, COUNT, give_app

pytestmark = pytest.mark.django_db


def test_it_tells_the_code_of_a_demo_account(monkeypatch):
    monkeypatch.setattr(time, "time", lambda: 30.0 * COUNT + 7)
    rikke = User.objects.create_user("rikke", "rikke@demo.invalid")
    give_app(rikke)
    said = StringIO()
    call_command("demo_code", "rikke", stdout=said)
    assert said.getvalue().split()[0] == CODE
    assert "good for 23 s more" in said.getvalue()


def test_it_tells_nobody_elses(rita):
    give_app(rita)
    with pytest.raises(CommandError, match="no demo account"):
        call_command("demo_code", "rita")
