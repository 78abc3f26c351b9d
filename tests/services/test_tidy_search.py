import pytest
from django.db import connection

from teardowns import jobs
from teardowns.models import Findable, SearchTerm, SearchText
from teardowns.services.search import search
from teardowns.services.tidy_search import sweep_terms, sweep_words, tidy_index
from tests.indexed import indexed

pytestmark = pytest.mark.django_db


def shown():
    return set(SearchTerm.objects.values_list("shown", flat=True))


@pytest.fixture(autouse=True)
def units():
    indexed(1, makers=["Umberlisk"], models=["Hub 65"], lines=["isolated"])
    indexed(2, makers=["Brethuld"], models=["B5"], lines=["isolated"])
    indexed(1, "PZ6318", kind=Findable.PART, markings=["PZ6318"])


def test_words_that_nothing_public_has_any_more_are_forgotten():
    SearchText.objects.of(Findable.UNIT, [2]).delete()
    assert sweep_terms() is None
    assert shown() == {"Umberlisk", "Umberlisk Hub 65", "Hub 65", "isolated", "PZ6318"}


def test_it_goes_on_in_slices():
    SearchText.objects.all().delete()
    last = sweep_terms(0, 2)
    assert SearchTerm.objects.order_by("pk").first().pk == last + 1
    while last is not None:
        last = sweep_terms(last, 2)
    assert not SearchTerm.objects.exists()


def words_from(first):
    with connection.cursor() as cursor:
        cursor.execute("SELECT word FROM search_words WHERE word >= %s", [first])
        return {word for word, in cursor.fetchall()}


def test_so_are_those_of_the_index_in_slices():
    kept = words_from("u")
    assert kept >= {"urisolated", "urb5", "urumberlisk"}
    SearchText.objects.of(Findable.UNIT, [2]).delete()
    last = sweep_words("", 3)
    while last is not None:
        last = sweep_words(last, 3)
    assert words_from("u") >= {"urisolated", "urumberlisk"}
    assert not words_from("u") & {"urb5", "urbrethuld"}


def test_a_tidied_index_finds_the_same():
    tidy_index()
    assert search("isolated").units == [2, 1]


def test_the_job_queues_what_is_left(monkeypatch):
    queued = []
    monkeypatch.setattr(jobs, "async_task", lambda *call: queued.append(call))
    monkeypatch.setattr(jobs, "sweep_terms", lambda after: 7 if after == 0 else None)
    monkeypatch.setattr(jobs, "sweep_words", lambda after: "b" if after == "" else None)
    jobs.tidy_search()
    jobs.tidy_search(7)
    jobs.forget_words("b")
    assert queued == [("teardowns.jobs.forget_words", "b"), ("teardowns.jobs.tidy_search", 7)]
