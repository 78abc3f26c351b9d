"""Five hundred invented accounts and five hundred spam items move no verdict and show nothing."""
import pytest
from django.utils import timezone

from core.accounts.models import User
from core.audit.models import Entry
from teardowns.models import (
    Comment,
    HiddenNow,
    Report,
    ReviewDecision,
    Status,
    Unit,
)
from teardowns.reasons import REASONS
from teardowns.services.hide_now import may_hide
from teardowns.services.receive_report import ReportRefused, receive_report
from teardowns.services.reported_item import item_about
from teardowns.services.write_comment import write_comment
from tests.published import published

pytestmark = pytest.mark.django_db
CROWD, FEW = 500, 50
SPAM = "Best price, best charger, click here"


@pytest.fixture
def crowd(db):
    """Accounts with confirmed addresses and nothing published."""
    now = timezone.now()
    return User.objects.bulk_create(
        User(username=f"puppet-{n}", email=f"puppet-{n}@cast.example", email_verified_at=now)
        for n in range(CROWD))


def shown(client, publication):
    """All that everybody is told of a record, and the page that tells it."""
    publication.refresh_from_db()
    unit = publication.unit
    page = client.get(f"/units/{unit.pk}/").content.decode()
    return (unit.status, publication.assessment_id, publication.assessment.verdict,
            publication.standing.payload, page.partition("<main")[2])


def test_five_hundred_who_report_move_no_verdict_and_hide_no_record(client, photo, crowd):
    publication = published(photo.unit)
    before = shown(client, publication)
    for n, puppet in enumerate(crowd):
        about = f"photo/{photo.pk}" if n % 2 else f"unit/{photo.unit_id}"
        receive_report(reporter=puppet, about=about, code="personal_data" if n % 3 else "spam",
                       text="Take it down.")
    assert Report.objects.count() == CROWD and not HiddenNow.objects.exists()
    assert shown(client, publication) == before


def test_one_of_them_with_a_published_record_hides_a_photo_for_a_day_and_no_verdict(
        client, photo, crowd):
    publication = published(photo.unit)
    published(Unit.objects.create(contributor=crowd[0], title="Veltrice VQ-20"))
    verdict = shown(client, publication)[:4]
    for puppet in crowd[:20]:
        receive_report(reporter=puppet, about=f"photo/{photo.pk}", code="personal_data",
                       text="A face.")
        receive_report(reporter=puppet, about=f"unit/{photo.unit_id}", code="personal_data",
                       text="A face.")
    assert [one.kind for one in HiddenNow.objects.all()] == ["photo"]
    assert Unit.objects.published().filter(pk=photo.unit_id).exists()
    assert shown(client, publication)[:4] == verdict


def test_one_person_who_reports_everything_again_and_again_counts_once(photo, crowd):
    published(photo.unit)
    refused = 0
    for _ in range(20):
        try:
            receive_report(reporter=crowd[0], about=f"photo/{photo.pk}", code="personal_data",
                           text="A face.")
        except ReportRefused:
            refused += 1
    assert refused == 19 and Report.objects.count() == 1 and not HiddenNow.objects.exists()


def test_none_of_them_confirms_decides_hides_or_moderates(client, photo, crowd):
    publication = published(photo.unit)
    before = shown(client, publication)
    unit, item = photo.unit_id, item_about(f"photo/{photo.pk}")
    assert not any(may_hide(puppet, item) for puppet in crowd)
    for puppet in crowd[:10]:
        client.force_login(puppet)
        for address in (f"/reviews/{unit}/claim/", f"/reviews/{unit}/decide/",
                        f"/moderation/{unit}/", f"/moderation/{unit}/decide/quarantine/",
                        f"/hide/?about=unit/{unit}", f"/units/{unit}/withdraw/"):
            answer = client.post(address, {"decision": "confirmed", "step": "send",
                                           "code": "spam", "facts": "x", "reason": "x"})
            assert answer.status_code in (403, 404), address
    client.logout()
    assert not ReviewDecision.objects.exists() and shown(client, publication) == before


def test_five_hundred_records_handed_in_are_public_nowhere_before_a_person_looked(client, crowd):
    now = timezone.now()
    Unit.objects.bulk_create(Unit(contributor=puppet, title=f"{SPAM} {n}", notes=SPAM,
                                  status=Status.SUBMITTED, submitted_at=now)
                             for n, puppet in enumerate(crowd))
    pk = Unit.objects.first().pk
    for address in ("/", "/units/", "/units/?q=price", "/feeds/newest.atom"):
        assert SPAM not in client.get(address).content.decode()
    assert client.get(f"/units/{pk}/").status_code == 404
    assert client.get(f"/units/{pk}/document.json").status_code == 404


def test_comments_of_new_accounts_are_held(client, unit, crowd):
    published(unit)
    for puppet in crowd[:FEW]:
        write_comment(author=puppet, thing=unit, text=SPAM)
    assert Comment.objects.count() == FEW and not Comment.objects.readable().exists()
    assert SPAM not in client.get(f"/units/{unit.pk}/").content.decode()
    assert SPAM not in client.get(f"/units/{unit.pk}/discussion/").content.decode()


def test_every_reason_that_can_be_reported_leaves_a_record_alone(photo, crowd):
    published(photo.unit)
    for n, reason in enumerate(REASONS):
        for puppet in crowd[n * 3:n * 3 + 3]:
            receive_report(reporter=puppet, about=f"unit/{photo.unit_id}", code=reason.code,
                           text="Take it down.")
    assert Unit.objects.published().filter(pk=photo.unit_id).exists()
    assert Entry.objects.filter(action="report_received").count() == 3 * len(REASONS)
