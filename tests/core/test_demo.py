"""The command that takes an empty machine to the demo."""
import socket

import pytest
from django.contrib.auth import authenticate
from django.core.management import CommandError, call_command

from teardowns.models import Assessment, Unit


@pytest.fixture
def prepared(settings, tmp_path):
    settings.STATIC_ROOT = tmp_path / "static"


@pytest.mark.django_db(transaction=True)
def test_it_prepares_everything_and_run_again_changes_nothing_but_the_passwords(prepared, capsys):
    call_command("demo", "--no-serve", "--no-pictures")
    assert Unit.objects.published().count() >= 24
    first = dict(accounts(capsys.readouterr().out))
    before = list(Assessment.objects.values_list("pk", "evidence_digest"))
    assert len(before) >= 24
    call_command("demo", "--no-serve", "--no-pictures")
    second = dict(accounts(capsys.readouterr().out))
    assert list(Assessment.objects.values_list("pk", "evidence_digest")) == before
    assert first.keys() == second.keys() and set(first.values()).isdisjoint(second.values())
    assert all(authenticate(username=n, password=p) for n, p in second.items())


def accounts(text):
    """Name and password of each printed account."""
    for line in text.partition("Demo accounts")[2].splitlines()[1:]:
        if len(words := line.split()) == 3:
            yield words[0], words[1]


def test_a_taken_port_is_said_before_anything_is_done():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(CommandError, match="already in use"):
            call_command("demo", "--port", str(taken.getsockname()[1]))


@pytest.mark.parametrize("port", ["0", "-1", "65536"])
def test_a_number_that_is_no_port_is_said(port):
    with pytest.raises(CommandError, match="from 1 to 65535"):
        call_command("demo", f"--port={port}")
