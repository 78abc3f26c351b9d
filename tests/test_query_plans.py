"""What everybody asks for reads no large table from end to end, on either database.

With few rows PostgreSQL prefers to read a table whole; here it may not where an index serves.
"""
import re

import pytest
from django.db import connection, transaction
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from teardowns.models import BoardFamily, ListedUnit, Unit
from teardowns.services.browse import pack_listing
from teardowns.views import kept_pages
from tests.bench.many_units import make_units
from tests.cast import person

pytestmark = pytest.mark.django_db
# Tables that grow with the units, or with what people do.
LARGE = ("unit", "publication", "assessment", "listedunit", "searchtext", "searchterm",
         "search_words", "likeness", "likenessword", "component", "measurement", "claim", "photo",
         "comment", "reviewdecision", "review", "boardfamilymember", "historicalunit")
SCANS = {"sqlite": re.compile(r"SCAN (\w+)\b(?! \S* ?USING INDEX)(?! VIRTUAL)"),
         "postgresql": re.compile(r"Seq Scan on (\w+)")}
WALKED = re.compile(r"SCAN (\w+) USING INDEX")
LAST_ROW = re.compile(r"(?s)(?!.*WHERE).* LIMIT 1$")     # along the key, which SQLite calls a scan


@pytest.fixture(scope="module")
def filled(django_db_setup, django_db_blocker):
    """Few units, made once: what a plan is depends on what could be asked."""
    with django_db_blocker.unblock(), transaction.atomic():
        made = make_units(60, moulds=3)
        pack_listing()
        if connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute("SET LOCAL enable_seqscan = off")
        yield ListedUnit.objects.get(pk=made[-1])
        transaction.set_rollback(True)


def addresses(unit):
    family = BoardFamily.objects.filter(memberships__state="accepted").first()
    listed = reverse("unit_list")
    return {
        "list": listed, "narrowed": f"{listed}?verdict={unit.verdict}&channel={unit.channel}",
        "sorted": f"{listed}?sort=gap", "search": f"{listed}?q={unit.model.split()[-1]}",
        "misread": f"{listed}?q={unit.controller[:-1]}",
        "nothing": f"{listed}?q={unit.model}+quizzing", "front page": reverse("front_page"),
        "unit": reverse("unit_detail", args=[unit.pk]),
        "compare": f"{reverse('compare')}?units={unit.pk},{unit.pk - 1}",
        "newest": reverse("feed_newest"), "serious": reverse("feed_serious"),
        "family": reverse("feed_family", args=[family.slug])}


def read_whole(queries):
    """(table, query) of each plan that reads a large table from end to end."""
    asked = [query["sql"] for query in queries
             if query["sql"].lstrip().upper().startswith(("SELECT", "WITH"))]
    return [(table, sql) for sql in asked for table in whole_tables(sql)
            if table.removeprefix("teardowns_") in LARGE]


def whole_tables(sql):
    plan = plan_of(sql)
    is_sorted = "B-TREE FOR ORDER BY" in plan
    if LAST_ROW.match(sql) and not is_sorted:
        return []
    # An index that is walked and then sorted was walked to its end.
    walked = WALKED.findall(plan) if is_sorted and "LIMIT" in sql else []
    return SCANS[connection.vendor].findall(plan) + walked


def plan_of(sql):
    explain = "EXPLAIN QUERY PLAN" if connection.vendor == "sqlite" else "EXPLAIN"
    with connection.cursor() as cursor:
        cursor.execute(f"{explain} {sql}")
        return "\n".join(str(row[-1]) for row in cursor.fetchall())


@pytest.mark.parametrize("name", ["list", "narrowed", "sorted", "search", "misread", "nothing",
                                  "front page", "unit", "compare", "newest", "serious", "family"])
def test_no_large_table_is_read_whole(filled, client, name):
    kept_pages.pages.clear()
    client.get(reverse("unit_list"))                     # the process has begun
    with CaptureQueriesContext(connection) as captured:
        assert client.get(addresses(filled)[name]).status_code == 200
    assert len(captured) and read_whole(captured.captured_queries) == []


def test_nor_for_the_queue_of_reviews(filled, client):
    client.force_login(person("rita", "reviewer"))
    with CaptureQueriesContext(connection) as captured:
        assert client.get(reverse("review_queue")).status_code == 200
    assert read_whole(captured.captured_queries) == []


def test_a_plan_that_reads_a_table_whole_is_noticed(filled):
    with CaptureQueriesContext(connection) as captured:
        list(Unit.objects.filter(title__contains="x").order_by("title"))
    assert [table for table, _ in read_whole(captured.captured_queries)] == ["teardowns_unit"]
