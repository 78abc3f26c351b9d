"""What becomes of a proposal: on to it once decided, back to its page, or told why not."""
from types import SimpleNamespace

import pytest
from django.contrib.messages import get_messages
from django.contrib.messages.storage.fallback import FallbackStorage

from teardowns.forms.part_forms import DecisionForm
from teardowns.services.proposals import Refused
from teardowns.views.proposal_steps import TAKEN_BACK, decided, taken_back
from teardowns.workflow import NotNow

PROPOSAL = SimpleNamespace(get_absolute_url=lambda: "/families/units/3/")
PAGE = object()


@pytest.fixture
def request_(rf):
    made = rf.post("/families/units/3/decide/")
    made.user, made.session = "mona", {}
    made._messages = FallbackStorage(made)
    return made


def told(request):
    return [(message.level_tag, str(message)) for message in get_messages(request)]


def raising(error):
    def step(*_):
        raise error
    return step


def decide(request, step, **typed):
    form = DecisionForm({"seen": 2, "reason": "Looked.", **typed})
    return decided(request, PROPOSAL, form, step, lambda: PAGE), form


def test_a_decision_gets_what_the_form_says_and_leads_on_to_the_proposal(request_):
    heard = []
    answer, _ = decide(request_, lambda said: heard.append(said) or "Accepted.")
    assert answer.url == "/families/units/3/" and told(request_) == [("success", "Accepted.")]
    assert heard == [{"moderator": "mona", "version": 2, "reason": "Looked."}]


def test_without_a_reason_nothing_is_decided(request_):
    answer, form = decide(request_, raising(AssertionError("decided")), reason=" ")
    assert answer is PAGE and "reason" in form.errors


def test_what_the_service_refuses_stands_beside_its_field(request_):
    answer, form = decide(request_, raising(Refused({"reason": "Say more."})))
    assert answer is PAGE and form.errors["reason"] == ["Say more."] and not told(request_)


def test_what_is_decided_already_is_told_on_the_proposal(request_):
    answer, _ = decide(request_, raising(NotNow("It was declined meanwhile.")))
    assert answer.url == "/families/units/3/"
    assert told(request_) == [("error", "It was declined meanwhile.")]


@pytest.mark.parametrize(("step", "said"), [
    (lambda: None, ("success", TAKEN_BACK)),
    (raising(NotNow("It was accepted meanwhile.")), ("error", "It was accepted meanwhile."))])
def test_a_proposal_is_taken_back_or_told_why_not(request_, step, said):
    assert taken_back(request_, PROPOSAL, step).url == "/families/units/3/"
    assert told(request_) == [said]
