"""A bench sheet that can be handed in, and what is sent to do so."""
from teardowns import licence
from teardowns.models import Correction, PrintedText, ReviewRemark
from teardowns.services.submit_unit import Terms, submit_unit
from tests.published import published

TERMS = Terms(licence.IN_FORCE.number, True, "none")
WHY = "The camera broke; a second visit is planned."
STATES = ("draft", "submitted", "in_review", "sent_back", "published", "withdrawn", "declined",
          "discarded")


def with_plate(unit, author):
    """The unit, with the text of its plate."""
    PrintedText.objects.create(unit=unit, key="plate", source="plate", author=author,
                               text="INPUT 100-240V OUTPUT 5V 2A")
    return unit


def hand_in(unit, author, **more):
    return submit_unit(**{"author": author, "unit_pk": unit.pk, "terms": TERMS,
                          "why_no_photo": WHY} | more)


def remark_on(unit, author, ref="printedtext/plate", text="The photo says 1 A.", correction=None):
    return ReviewRemark.objects.create(unit=unit, correction=correction, ref=ref, text=text,
                                       author=author)


def correction_of(unit, author, status="draft"):
    """An open correction of the unit, which is public by now."""
    published(unit)
    return Correction.objects.create(unit=unit, author=author, base=unit.publication,
                                     reason="The plate prints 1 A.", status=status)


def sent(**more):
    """The fields of the form, filled in, of a sheet without photos."""
    return {"act": "submit", "own_rights": "on", "third_party": "none", "third_party_note": "",
            "edition": licence.IN_FORCE.number, "message": "", "why_no_photo": WHY} | more
