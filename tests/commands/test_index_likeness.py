"""`manage.py index_likeness`: rebuilt, counted, looked through."""
from io import StringIO

import pytest
from django.core.management import call_command

from teardowns.models import Likeness, LikenessCount, LikenessWord, Lookalike
from tests.likenesses import board, strangers

pytestmark = pytest.mark.django_db


def run(*options):
    out = StringIO()
    call_command("index_likeness", *options, stdout=out)
    return out.getvalue()


@pytest.fixture
def boards(alice):
    return [board(alice, "One"), board(alice, "Two"), *strangers(alice)]


def test_what_was_lost_is_rebuilt(boards):
    LikenessWord.objects.all().delete()
    Likeness.objects.all().delete()
    assert run().startswith("7 of 7 units")
    assert LikenessCount.objects.get(word=LikenessCount.EVERY_UNIT).units == 7
    assert Lookalike.objects.count() == 1


def test_run_twice_nothing_moves(boards):
    run()
    assert run().startswith("0 of 7 units")


def test_the_looking_can_be_left_to_the_workers(boards):
    run("--index-only")
    assert not Lookalike.objects.exists()
    assert "7 units" in run("--all") and Lookalike.objects.count() == 1
