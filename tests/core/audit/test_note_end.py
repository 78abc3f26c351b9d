import logging

import pytest
from django.core.management import call_command
from django.db import transaction

from core.audit.note_end import note_end
from core.audit.record import record

pytestmark = pytest.mark.django_db


def test_the_end_is_written_down_as_a_witness_takes_it(caplog):
    caplog.set_level(logging.INFO, "core.audit")
    assert note_end() == ""
    with transaction.atomic():
        record(None, "scenarios_kept")
    assert (noted := note_end()) in caplog.text and noted.startswith("1:")
    call_command("check_audit", witness=noted)
