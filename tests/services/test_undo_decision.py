"""What a reversed decision did is undone where that can be done by itself, and else left alone."""
import pytest
from django.db import transaction

from teardowns.models import Decision, Status, Unit
from teardowns.services.decline_correction import decline_correction
from teardowns.services.hide_now import hide_now, keep_hidden
from teardowns.services.send_back_unit import send_back_unit
from teardowns.services.state_reasons import give_reasons
from teardowns.services.undo_decision import undo_decision
from teardowns.services.withdraw_unit import withdraw_unit
from tests.published import published

pytestmark = pytest.mark.django_db
WHY = {"code": "incomplete", "facts": "The transformer was not opened."}


def undo(statement, moderator):
    with transaction.atomic():
        return undo_decision(statement, moderator)


def test_a_withdrawn_record_is_public_again(unit, mona, milo):
    published(unit)
    statement = withdraw_unit(by=mona, unit_pk=unit.pk, **WHY)
    assert not Unit.objects.published().exists()
    assert undo(statement, milo) and Unit.objects.published().get() == unit
    assert unit.publications.get().withdrawn_at is None


def test_a_declined_record_is_considered_anew(unit, mona, milo):
    Unit.objects.update(status=Status.SUBMITTED)
    assert undo(decline_correction(moderator=mona, unit_pk=unit.pk, **WHY), milo)
    assert Unit.objects.get().status == Status.SUBMITTED


def test_what_was_confirmed_hidden_is_shown_again(unit, rita, mona, milo):
    published(unit)
    hidden = hide_now(by=rita, about=f"unit/{unit.pk}", reason="A face.")
    assert undo(keep_hidden(moderator=mona, hidden_pk=hidden.pk, **WHY), milo)
    assert Unit.objects.published().exists()


def test_what_is_undone_already_is_left_alone(unit, rita, mona, milo):
    published(unit)
    hidden = hide_now(by=rita, about=f"unit/{unit.pk}", reason="A face.")
    statement = keep_hidden(moderator=mona, hidden_pk=hidden.pk, **WHY)
    assert undo(statement, milo) and not undo(statement, milo)


def test_what_its_author_can_mend_or_takes_two_people_is_not_undone_by_itself(unit, mona, milo):
    Unit.objects.update(status=Status.SUBMITTED)
    assert not undo(send_back_unit(moderator=mona, unit_pk=unit.pk, **WHY), milo)
    role = give_reasons(decision=Decision.ROLE, code="trust", facts="Sound.", subject="user/1",
                        by=mona)
    assert not undo(role, milo)
