"""How many requests a minute, and what the answers say of it."""
import re

import pytest

from .speaking import Program

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def few(settings):
    settings.API_READS, settings.API_READS_OF_OWNER, settings.API_WRITES = 3, 5, 2


def left(answer):
    return int(re.search(r"r=(\d+)", answer["RateLimit"])[1])


def test_each_answer_says_what_is_left():
    answers = [Program().get("/licence") for _ in range(3)]
    assert [left(each) for each in answers] == [2, 1, 0]
    assert answers[0]["RateLimit-Policy"] == '"api-reads";q=3;w=60'


def test_beyond_it_one_is_told_when_to_come_back():
    for _ in range(3):
        Program().get("/licence")
    answer = Program().get("/licence")
    assert answer.status_code == 429 and left(answer) == 0
    assert 1 <= int(answer["Retry-After"]) <= 20        # a third of a minute, for one of three
    assert answer["Content-Type"] == "application/problem+json"


def test_a_token_has_a_bucket_of_its_own(alice):
    for _ in range(4):
        Program().get("/licence")
    program = Program(alice)
    assert [program.get("/licence").status_code for _ in range(6)] == [200] * 5 + [429]


def test_writes_are_counted_apart_and_what_is_refused_counts(alice):
    program = Program(alice)
    assert [program.post("/bench", {"title": ""}).status_code for _ in range(3)] == [422, 422, 429]
    assert program.get("/licence").status_code == 200
