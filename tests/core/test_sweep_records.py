"""What is kept for a time only is forgotten by a command."""
from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.management import call_command
from django.utils import timezone

from core.buckets import HOUR, take
from core.models import Answer


@pytest.mark.django_db
def test_old_answers_and_full_limits_are_forgotten(alice, capsys):
    Answer.objects.create(person=alice, key=uuid4(), digest="0" * 64)
    Answer.objects.update(at=timezone.now() - timedelta(days=40))
    take("reports", alice.pk, 20, HOUR)
    take("reports", "long ago", 20, HOUR, now=1.0)
    call_command("sweep_records")
    assert "1 answers and 1 limits forgotten" in capsys.readouterr().out
