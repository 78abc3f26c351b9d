"""A case has one owner, who hands it over to a moderator and to nobody else."""
import pytest

from core.audit.models import Entry
from teardowns.models import Charge
from teardowns.services.take_charge import NotTheirs, hand_over, take_charge

pytestmark = pytest.mark.django_db


def test_who_takes_it_owns_it_until_another_does(mona, milo):
    take_charge(moderator=mona, subject="report/4")
    hand_over(moderator=mona, subject="report/4", to=milo)
    assert Charge.objects.get().owner == milo
    assert [one.action for one in Entry.objects.order_by("sequence")] == [
        "charge_taken", "charge_handed_over"]


@pytest.mark.parametrize("name", ["alice", "rita", "ada", "mona"])
def test_nobody_else_gets_it(mona, request, name):
    with pytest.raises(NotTheirs):
        hand_over(moderator=mona, subject="report/4", to=request.getfixturevalue(name))
    assert not Charge.objects.exists()
