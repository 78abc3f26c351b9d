"""What people type into a discussion, and what moderators type about it."""
from __future__ import annotations

from django import forms

from teardowns.models import DigestChoice, MakerAccount
from teardowns.models.replies import LANGUAGE
from teardowns.reasons import AGAINST
from teardowns.services import receive_reply, write_comment

LANGUAGE_HINT = ("The short name of the language of your words: en, de, zh-Hans. It tells "
                 "browsers and screen readers how to read them out.")
MARKED_UP = ("A blank line begins a paragraph; *emphasis*, **strong**, `code`, - list, > quote, "
             "[words](https://address).")


def text_area(label, rows, **options):
    return forms.CharField(label=label, widget=forms.Textarea(attrs={"rows": rows}), **options)


class CommentForm(forms.Form):
    """One comment; `ref` names the row of evidence that it is about."""

    text = text_area(
        "Your comment", 6, max_length=write_comment.LONGEST, help_text=MARKED_UP,
        error_messages={"required": "Write something, or leave this page: nothing is lost."})
    version = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=1)


class RemovalForm(forms.Form):
    """Why something is taken out of sight: a reason of the list, and what was seen."""

    code = forms.ChoiceField(label="Reason", choices=[("", "Choose a reason"), *AGAINST],
                             error_messages={"required": "Choose a reason of the list."})
    facts = text_area(
        "What was seen", 3, max_length=2000,
        help_text="Its author reads this, and whoever decides about an appeal.",
        error_messages={"required": "Write what was seen: the decision rests on it."})


class ReplyVersionForm(forms.Form):
    """The words of a reply, and whether they ask for another review."""

    text = text_area(
        "Your statement", 10, max_length=receive_reply.LONGEST,
        help_text=f"It is shown beside the finding, whole, dated, and as large. {MARKED_UP}",
        error_messages={"required": "Write your statement."})
    language = forms.CharField(label="Language", max_length=12, initial="en",
                               validators=[LANGUAGE], help_text=LANGUAGE_HINT)
    disputes = forms.BooleanField(
        label="We dispute what the record says and ask for another review of it.", required=False)


class ReplyForm(ReplyVersionForm):
    """A first reply: also for whom it is sent, and how that can be checked."""

    author_name = forms.CharField(
        label="For whom do you speak?", max_length=200,
        help_text="The maker’s or seller’s name, as it is to stand above the statement.",
        error_messages={"required": "Write whose statement this is."})
    check_hint = text_area(
        "How can we check that?", 3, max_length=2000,
        help_text="Such as an address at the maker’s own domain that we can write to, or a page of "
                  "theirs that names you. Only moderators read this.",
        error_messages={"required": "Say how a moderator can check it: without that the statement "
                                    "cannot be shown."})
    field_order = ("author_name", "check_hint", "text", "language", "disputes")


class VerifyForm(forms.Form):
    """That a moderator checked for whom a reply speaks."""

    name = forms.CharField(label="Whose statement it is", max_length=200,
                           error_messages={"required": "Write whose statement it is."})
    checked_how = text_area(
        "How it was checked", 3, max_length=2000, required=False,
        help_text="Kept for moderators. Needed once for a person and a record or maker.")
    whole_maker = forms.BooleanField(
        label="The person speaks for this maker in all records of theirs", required=False)

    def __init__(self, *args, known: MakerAccount | None = None, maker: str = "", **options):
        super().__init__(*args, **options)
        if known or not maker:
            del self.fields["whole_maker"]
        if known:
            del self.fields["checked_how"]


class AnswerForm(forms.Form):
    """What came of the review that a reply asked for."""

    answer = text_area("What was looked at again, and what came of it", 4, max_length=2000,
                       error_messages={"required": "Write what came of it: the mark goes with it."})


class DigestForm(forms.Form):
    every = forms.ChoiceField(label="E-mail with what is new", choices=DigestChoice.choices,
                              widget=forms.RadioSelect)
