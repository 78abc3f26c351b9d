import io

import pytest
from django.core.management import CommandError, call_command

from teardowns.models import Unit
from tests.bulk.test_bag import written


def read(*args):
    said = io.StringIO()
    call_command("read_bag", *args, stdout=said)
    return said.getvalue()


def test_it_says_that_checksums_evidence_and_verdicts_agree(tmp_path):
    said = read(str(written(tmp_path / "bag.zip")))
    assert "Checksums: all agree." in said and "the same as stated" in said
    assert "Verdicts: the same." in said and "NOT" not in said


@pytest.mark.parametrize("content", [b"", b"PK", b"\x00" * 100])
def test_something_else_is_refused_with_code_2(tmp_path, content):
    (tmp_path / "x.zip").write_bytes(content)
    with pytest.raises(CommandError) as refused:
        read(str(tmp_path / "x.zip"))
    assert refused.value.returncode == 2


@pytest.mark.django_db
def test_it_brings_the_record_to_a_bench_once(tmp_path, alice):
    bag = str(written(tmp_path / "bag.zip"))
    assert "Bench sheet" in read(bag, "--import-as", "alice")
    assert Unit.objects.get().contributor == alice
    with pytest.raises(CommandError, match="in the database already"):
        read(bag, "--import-as", "alice")
    with pytest.raises(CommandError, match="no account"):
        read(bag, "--import-as", "nobody-here")
