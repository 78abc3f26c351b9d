"""Each request has a number, in its answer, its log lines and its audit entries."""
import logging

import pytest
from django.http import HttpResponse

from core import request_id


def answered(rf, view, **headers):
    return request_id.numbered_requests(view)(rf.get("/", headers=headers))


@pytest.mark.django_db
def test_an_answer_carries_its_number(client):
    numbers = {client.get("/sign-in/")["X-Request-ID"] for _ in range(2)}
    assert len(numbers) == 2 and all(len(number) == 32 for number in numbers)


def test_what_the_client_calls_it_is_not_believed(rf):
    response = answered(rf, lambda request: HttpResponse(), x_request_id="mine")
    assert response["X-Request-ID"] != "mine"


def test_a_line_that_is_logged_meanwhile_carries_it(rf):
    lines = []

    def view(request):
        line = logging.LogRecord("site", logging.INFO, "", 1, "saved", (), None)
        request_id.WithRequest().filter(line)
        lines.append(line.request_id)
        return HttpResponse()

    assert answered(rf, view)["X-Request-ID"] == lines[0]
    assert request_id.current.get() == ""


def test_a_line_about_a_request_that_is_over_carries_its_number(rf):
    request = rf.get("/")
    answer = request_id.numbered_requests(lambda request: HttpResponse())(request)
    line = logging.LogRecord("django.request", logging.WARNING, "", 1, "Not Found", (), None)
    line.request = request
    request_id.WithRequest().filter(line)
    assert line.request_id == answer["X-Request-ID"]


def test_a_line_outside_of_requests_carries_a_dash():
    line = logging.LogRecord("site", logging.INFO, "", 1, "started", (), None)
    assert request_id.WithRequest().filter(line) and line.request_id == "-"
