import pytest

from teardowns.models import BoardFamily, DataExport, Lookalike, SisterReport
from teardowns.services.export_data import offered_export
from teardowns.services.finish_demo import finish_demo
from teardowns.services.load_demo import load_demo

pytestmark = pytest.mark.django_db


def test_the_demo_has_a_family_likenesses_and_bulk_data_and_again_no_more():
    load_demo()
    finish_demo()
    family = BoardFamily.objects.get()
    assert family.memberships.current().count() == 2 and Lookalike.objects.exists()
    assert SisterReport.objects.count() == 2
    assert offered_export().units == 35
    finish_demo()
    assert (BoardFamily.objects.count(), DataExport.objects.count()) == (1, 1)
