"""The digest moves with the evidence, and with nothing else."""
import pytest

from teardowns.exchange.digest import both_digests, digest
from teardowns.exchange.document import read_document
from tests.exchange.whole_document import whole_document


def digest_after(change, **options):
    document = whole_document()
    change(document)
    return digest(read_document(document), **options)


BEFORE = digest_after(lambda document: None)


def set_review(state):
    return lambda document: document["measurements"][0].update(review_state=state)


@pytest.mark.parametrize("change", [
    lambda d: d["unit"].update(title="another", price=1.0, notes="", status="published"),
    lambda d: d["unit"].pop("uid"),
    lambda d: d["photos"][0].update(caption="another", original_name="b.jpg"),
    set_review("open"), set_review("remeasured"),
])
def test_it_stays_when_no_evidence_changes(change):
    assert digest_after(change) == BEFORE


@pytest.mark.parametrize("change", [
    lambda d: d["measurements"][0].update(value=12.4),
    lambda d: d["measurements"][0].update(how="estimated"),
    lambda d: d["measurements"].pop(1),
    lambda d: d["claims"].reverse(),
    lambda d: d["photos"][0].update(sha256="ef" * 32),
    lambda d: d["recordings"][0].update(sha256="ef" * 32),
    lambda d: d["parts"][0]["limits"][0].update(value=13.0),
    lambda d: d["unit"].update(photographed_sides=1),
    set_review("disputed"),
])
def test_it_moves_when_evidence_changes(change):
    assert digest_after(change) != BEFORE


def test_of_confirmed_evidence_it_moves_when_a_row_is_confirmed():
    confirmed = digest_after(set_review("confirmed"), confirmed_only=True)
    assert digest_after(set_review("open"), confirmed_only=True) != confirmed


def test_both_at_once_are_what_each_is_alone():
    document = read_document(whole_document())
    assert both_digests(document) == (digest(document), digest(document, confirmed_only=True))


def test_the_order_of_named_entries_is_no_evidence():
    """A frozen document comes back from PostgreSQL with them in another one."""
    document = read_document(whole_document())
    row = next(row for row in document["insulation"] if len(row.get("slot", {})) > 1)
    before = digest(document)
    row["slot"] = dict(reversed(row["slot"].items()))
    assert digest(document) == before
