"""The list as a table for other programs."""
import csv
import io

import pytest

from teardowns.presenting.list_table import COLUMNS
from tests.views.listed import enlist, listed

pytestmark = pytest.mark.django_db


def table(client, query=""):
    answer = client.get(f"/units/list.csv{query}")
    assert answer.status_code == 200
    text = b"".join(answer.streaming_content).decode("utf-8")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_it_rejects_post(client):
    assert client.post("/units/list.csv").status_code == 405


def test_it_has_every_unit_of_the_address_beyond_one_page_and_in_its_order(client):
    for number in range(30):
        listed(f"Unit {number}", verdict="doubtful", claimed_power=number + 1, capability=1)
    listed("other", verdict="possible")
    rows = table(client, "?verdict=doubtful&sort=gap&after=1_2")
    assert [row["title"] for row in rows] == [f"Unit {number}" for number in range(29, -1, -1)]


def test_a_search_narrows_it_as_it_does_the_list(client):
    listed("Corven adapter")
    listed("Another")
    assert [row["title"] for row in table(client, "?q=corven")] == ["Corven adapter"]


def test_numbers_are_si_with_all_digits_and_the_unknown_is_empty(client):
    listed("A charger", claimed_power=22.5, capability=10.0, risk=4, verdict="doubtful",
           facts={"mass": 0.0456, "hazards": ["shock", "fire"], "year": 2024})
    (row,) = table(client)
    # gap: 22.5 W claimed over 10 W
    assert (row["claimed_power (W)"], row["gap (1)"]) == ("22.5", "2.25")
    assert row["mass (kg)"] == "0.0456"
    assert (row["volume (m³)"], row["measured_power (W)"], row["reach"]) == ("", "", "")
    assert (row["risk"], row["hazards"], row["year"]) == ("serious", "shock fire", "2024")


def test_each_row_says_under_which_licence_and_by_which_rules(client):
    listed("A charger")
    (row,) = table(client)
    assert (row["licence"], row["rulebook"], row["version"]) == (
        "CC0-1.0 AND CC-BY-4.0", "1+first", "1")


@pytest.mark.parametrize("typed", ["=1+1", "+49", "-1", "@SUM(A1)", "\t=1", " =1", "\uff1d1"])
def test_no_text_is_taken_for_a_formula(client, typed):
    listed(typed, maker=typed)
    (row,) = table(client)
    assert row["title"].startswith("'") and row["maker"].startswith("'")


def test_commas_quotes_and_lines_stay_in_their_cell(client):
    listed('He said "5 V, 2 A"', maker="Orbanel, Söhne")
    (row,) = table(client)
    assert (row["title"], row["maker"]) == ('He said "5 V, 2 A"', "Orbanel, Söhne")


def test_lines_end_as_the_standard_says_and_the_type_is_named(client):
    listed("A charger")
    answer = client.get("/units/list.csv")
    # RFC 4180, 2.1 and 3: lines end in CR LF; text/csv with charset and header
    assert b"".join(answer.streaming_content).count(b"\r\n") == 2
    assert answer["Content-Type"] == "text/csv; charset=utf-8; header=present"


def test_what_is_out_of_sight_is_not_in_it(client):
    enlist(listed("gone"), is_listed=False)
    assert table(client) == []


def test_it_is_not_asked_for_without_end(client):
    for _ in range(60):
        client.get("/units/list.csv")
    assert client.get("/units/list.csv").status_code == 429


def test_every_column_is_explained(client):
    page = client.get("/units/list-columns/").content.decode()
    assert all(f"<code>{column.heading}</code>" in page for column in COLUMNS)


def test_thousands_come_in_few_queries(client, django_assert_max_num_queries):
    for number in range(5):
        listed(f"Unit {number}")
    table(client)
    with django_assert_max_num_queries(8):       # four of the limits, clock, rows
        table(client)
