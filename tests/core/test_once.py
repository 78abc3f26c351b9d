"""A form is acted on once, however often it is sent, and every time answered alike."""
import re
from datetime import timedelta
from uuid import uuid4

import pytest
from django.contrib import messages
from django.contrib.auth.models import AnonymousUser
from django.contrib.messages.storage.cookie import CookieStorage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import Http404, HttpResponse, JsonResponse
from django.shortcuts import redirect
from django.template import Context, Template
from django.utils import timezone

from core.accounts.models import User
from core.models import Answer
from core.once import once, sweep_answers

pytestmark = pytest.mark.django_db
KEY = str(uuid4())


class Desk:
    """A view that makes one person a post, as views do, and those who post to it."""

    def __init__(self, rf):
        self.rf, self.acted, self.answer = rf, 0, lambda: redirect("/made/1/")

    def view(self, request):
        self.acted += 1
        User.objects.create(username=f"made-{self.acted}")
        messages.success(request, f"Made number {self.acted}.")
        return self.answer()

    def post(self, user=None, data=None, path="/new/", **sent):
        request = self.rf.post(path, {"text": "as typed", "once": KEY} if data is None else data,
                               **sent)
        request.user = user or AnonymousUser()
        request._messages = CookieStorage(request)
        response = once(self.view)(request)
        response.told = [str(message) for message in request._messages]
        return response


@pytest.fixture
def desk(rf):
    return Desk(rf)


def test_the_same_form_again_gets_the_first_answer_and_does_nothing(desk, alice):
    first, again = desk.post(alice), desk.post(alice)
    assert (first.status_code, first["Location"]) == (again.status_code, again["Location"])
    assert first.told == again.told == ["Made number 1."]
    assert desk.acted == 1


def test_the_token_against_forgery_may_differ(desk, alice):
    for token in "ab":
        desk.post(alice, {"text": "x", "once": KEY, "csrfmiddlewaretoken": token})
    assert desk.acted == 1


@pytest.mark.parametrize("other", [
    {"data": {"text": "other", "once": KEY}},
    {"data": {"text": ["as typed", "more"], "once": KEY}},
    {"path": "/new/?for=7"},
])
def test_other_words_under_the_same_key_are_refused_and_shown(desk, alice, other):
    desk.post(alice)
    refused = desk.post(alice, **other)
    assert refused.status_code == 422 and desk.acted == 1
    assert b"sent already with other words" in refused.content


def test_the_other_words_can_be_sent_as_something_new(desk, alice):
    desk.post(alice)
    page = desk.post(alice, {"text": 'two\r\n"lines"', "once": KEY}).content.decode()
    fresh = re.search(r'name="once" value="([0-9a-f-]{36})"', page)[1]
    assert 'name="text" value="two\r\n&quot;lines&quot;"' in page and fresh != KEY
    desk.post(alice, {"text": 'two\r\n"lines"', "once": fresh})
    assert desk.acted == 2


def test_a_password_is_not_written_into_the_page(desk, alice):
    desk.post(alice)
    page = desk.post(alice, {"password": "of the cast", "once": KEY})
    assert page.status_code == 422 and b"of the cast" not in page.content


def test_the_same_key_of_somebody_else_is_another_key(desk, alice, bob):
    for person in (alice, bob, None):
        desk.post(person)
        desk.post(person)
    assert desk.acted == 3


def test_without_a_key_each_form_is_acted_on(desk, alice):
    for _ in range(2):
        desk.post(alice, {"text": "as typed"})
    assert desk.acted == 2 and not Answer.objects.exists()


def test_a_key_that_is_none_is_refused_before_anything_is_done(desk, alice):
    assert desk.post(alice, {"once": "7"}).status_code == 422
    assert desk.acted == 0


def test_a_page_with_errors_uses_no_key_up(desk, alice):
    desk.answer = lambda: HttpResponse("Write a text.")
    desk.post(alice)
    desk.answer = lambda: redirect("/made/2/")
    assert desk.post(alice, {"text": "better", "once": KEY})["Location"] == "/made/2/"
    assert desk.acted == 2 and User.objects.filter(username__startswith="made-").count() == 2


def test_what_is_given_up_leaves_neither_change_nor_key(desk, alice):
    def give_up():
        raise Http404

    desk.answer = give_up
    with pytest.raises(Http404):
        desk.post(alice)
    assert not Answer.objects.exists() and not User.objects.filter(username="made-1").exists()


def test_files_are_told_apart_by_what_is_in_them(desk, alice):
    def send(content):
        return desk.post(alice, {"once": KEY, "log": SimpleUploadedFile("a.csv", content)})

    assert send(b"1,2")["Location"] == send(b"1,2")["Location"]
    assert send(b"1,3").status_code == 422 and desk.acted == 1


def test_a_file_is_handed_on_from_its_beginning(desk, alice):
    read = []
    desk.view = lambda request: read.append(request.FILES["log"].read()) or redirect("/")
    desk.post(alice, {"once": KEY, "log": SimpleUploadedFile("a.csv", b"1,2")})
    assert read == [b"1,2"]


def test_a_program_sends_the_key_in_a_header_and_gets_the_same_json(desk, alice):
    desk.answer = lambda: JsonResponse({"made": desk.acted}, status=201)

    def send(body='{"mass": 1}'):
        return desk.post(alice, body, content_type="application/json",
                         headers={"Idempotency-Key": KEY})

    first, again = send(), send()
    assert (first.status_code, first.content) == (again.status_code, again.content)
    assert again["Content-Type"] == "application/json"
    assert send('{"mass": 2}').status_code == 422 and desk.acted == 1


def test_answers_are_forgotten_after_a_month(desk, alice):
    desk.post(alice)
    Answer.objects.update(at=timezone.now() - timedelta(days=29))
    assert sweep_answers() == 0
    Answer.objects.update(at=timezone.now() - timedelta(days=31))
    assert sweep_answers() == 1


def test_reading_needs_no_key(rf):
    assert once(lambda request: HttpResponse("shown"))(rf.get("/")).content == b"shown"


def test_each_form_that_is_drawn_has_a_key_of_its_own():
    drawn = {Template("{% load once %}{% once %}").render(Context()) for _ in range(2)}
    assert len(drawn) == 2
    assert all(re.fullmatch(r'<input type="hidden" name="once" value="[0-9a-f-]{36}">', one)
               for one in drawn)
