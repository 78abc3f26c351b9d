"""What is said when a bench sheet is handed in: photos looked at, remarks answered, terms."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from django import forms

from core.whole_number import whole_number
from teardowns import licence
from teardowns.models import Photo, ReviewRemark, ThirdParty
from teardowns.services.submission_needs import NO_PHOTO
from teardowns.services.submit_unit import OWN_RIGHTS, Terms

MOST_TEXT = 4000
PRIVATE = ("I looked at it in full size: no face, address, serial number, telling reflection, "
           "document, or screen with a name is in it.")
NOT_TICKED = "Look at this photo in full size, cover what is private, then tick it."
NOT_ANSWERED = "Answer it in a word at least: what you changed, or why it stays."
UNSURE = ("unsure", "Yes, and I do not know whether I may")
SHORT_NAMES = {"own_rights": "Terms", "third_party": "Made by somebody else",
               "third_party_note": "Whose it is, and who permitted it",
               "why_no_photo": "Why there is no photo"}
ASK_FIRST = "Then take it out, or ask who made it; until that is clear it cannot be handed in."
TELL_WHOSE = "Write whose it is and who permitted it."


def text_area(label: str, rows: int, **options) -> forms.CharField:
    return forms.CharField(label=label, max_length=MOST_TEXT,
                           widget=forms.Textarea(attrs={"rows": rows}), **options)


class SubmitForm(forms.Form):
    """`photos` are asked about, `remarks` wait for an answer, `typed` is kept from before.

    Each photo says by `is_checked` whether it was ticked before.
    """

    message = text_area("To those who review it", 4, required=False,
                        help_text="What they should look at first, and what you doubt yourself.")
    own_rights = forms.BooleanField(label=licence.IN_FORCE.statement,
                                    error_messages={"required": OWN_RIGHTS})
    third_party = forms.ChoiceField(
        label="Is text or a photo in it made by somebody else?", widget=forms.RadioSelect,
        choices=[*ThirdParty.choices, UNSURE],
        error_messages={"required": "Choose one: a copied picture is not yours to hand in."})
    third_party_note = text_area("Whose it is, and who permitted it", 2, required=False)
    edition = forms.IntegerField(widget=forms.HiddenInput)

    def __init__(self, data: Mapping | None = None, *, photos: Sequence[Photo] = (),
                 has_photos: bool = False, remarks: Sequence[ReviewRemark] = (),
                 typed: Mapping[str, str] | None = None):
        self.photos, self.remarks = photos, remarks
        super().__init__(None if data is None else as_seen(data, photos),
                         initial={"edition": licence.IN_FORCE.number},
                         use_required_attribute=False)
        if not has_photos:
            self.fields["why_no_photo"] = text_area(
                "Why there is no photo", 2, error_messages={"required": NO_PHOTO})
        for photo in photos:
            self._ask_about(photo)
        for remark in remarks:
            self.fields[answer_name(remark)] = text_area(
                "Your answer", 2, error_messages={"required": NOT_ANSWERED})
        self.initial |= kept(typed or {}, self.fields)

    def _ask_about(self, photo):
        self.fields[tick_name(photo)] = forms.BooleanField(
            label=PRIVATE, error_messages={"required": NOT_TICKED})
        self.fields[seen_name(photo)] = forms.IntegerField(widget=forms.HiddenInput,
                                                           required=False)
        self.initial |= {seen_name(photo): photo.version, tick_name(photo): photo.is_checked}

    def clean(self):
        said = super().clean()
        if said.get("third_party") == UNSURE[0]:
            self.add_error("third_party", ASK_FIRST)
        if said.get("third_party") == ThirdParty.PERMITTED and not said.get("third_party_note"):
            self.add_error("third_party_note", TELL_WHOSE)
        return said

    def shown_photos(self) -> dict[int, tuple]:
        """By pk: the tick and the version that the page carries."""
        return {photo.pk: (self[tick_name(photo)], self[seen_name(photo)])
                for photo in self.photos}

    def shown_remarks(self) -> list[tuple]:
        return [(remark, self[answer_name(remark)]) for remark in self.remarks]

    def summary(self, titles: Mapping[str, str]) -> list[tuple[str, str, str]]:
        """(id of the field or "", its name or "", what is wrong) of all that needs a change.

        titles : of the photos, by key
        """
        names = {tick_name(photo): titles[photo.key] for photo in self.photos}
        return [("" if name == "__all__" else self[name].auto_id,
                 names.get(name, SHORT_NAMES.get(name, "")), message)
                for name, found in self.errors.items() for message in found]

    def terms(self) -> Terms:
        """Call it after is_valid()."""
        said = self.cleaned_data
        return Terms(said["edition"], said["own_rights"], said["third_party"],
                     said["third_party_note"])

    def answers(self) -> dict[int, str]:
        return {remark.pk: self.cleaned_data[answer_name(remark)] for remark in self.remarks}


def tick_name(photo: Photo) -> str:
    return f"photo-{photo.key}"


def seen_name(photo: Photo) -> str:
    return f"seen-{photo.key}"


def answer_name(remark: ReviewRemark) -> str:
    return f"answer-{remark.pk}"


def kept(typed: Mapping[str, str], names: Iterable[str]) -> dict[str, str]:
    """Of what was typed before, what the form is drawn with: ticks have rows of their own."""
    own = ("photo-", "seen-", "edition")
    return {name: typed[name] for name in names if name in typed and not name.startswith(own)}


def as_seen(data: Mapping[str, str], photos: Sequence[Photo]) -> dict[str, str]:
    """What was sent, without the ticks of photos that have changed since they were looked at."""
    sent = dict(data.items())
    for photo in photos:
        if sent.get(seen_name(photo)) != str(photo.version):
            sent.pop(tick_name(photo), None)
            sent[seen_name(photo)] = str(photo.version)
    return sent


def ticked(typed: Mapping[str, str]) -> tuple[dict[str, int], set[str]]:
    """Of what a page sent: the version seen of each photo asked about, and the keys ticked."""
    seen = {name.removeprefix("seen-"): number for name, text in typed.items()
            if name.startswith("seen-") and (number := whole_number(text, 9)) is not None}
    return seen, {key for key in seen if f"photo-{key}" in typed}
