"""manage.py index_words: the search anew, or what of it differs."""
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.db import connection

from teardowns.search_engines import missing
from teardowns.services.search import search
from tests.library import listed

pytestmark = pytest.mark.django_db


def told(*args):
    out = StringIO()
    call_command("index_words", *args, stdout=out)
    return out.getvalue()


def test_it_writes_all_words_and_says_how_far_it_is(mona):
    part = listed(mona)
    assert f"{part.pk} of {part.pk} numbers looked at." in told()
    assert search("pz6318").parts == [part.pk]


def test_a_check_names_what_differs_and_changes_nothing(mona):
    part = listed(mona)
    with pytest.raises(CommandError, match=f"part {part.pk}: not in the index"):
        told("--check")
    assert search("pz6318").parts == []
    told()
    assert "in line with what is public" in told("--check")


def test_it_makes_the_index_of_the_database_where_it_is_missing():
    drop = {"sqlite": "DROP TRIGGER searchtext_put", "postgresql": "DROP INDEX searchtext_pieces"}
    with connection.cursor() as cursor:
        cursor.execute(drop[connection.vendor])
    with pytest.raises(CommandError, match="lacks searchtext_p"):
        told("--check")
    told()
    assert missing(connection) == []
