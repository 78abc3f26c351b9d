"""`{{ text|said }}`: what a room wrote, in the reader's language. Never what a person wrote."""
import re
from html import escape, unescape

from django import template
from django.utils.safestring import SafeData, mark_safe
from django.utils.translation import get_language

from core.words.said import said as say

register = template.Library()
PICTURE_TEXT = re.compile(r"(?<=>)([^<>]*[^\W\d_][^<>]*)(?=<)|(?<=aria-label=\")([^\"]+)(?=\")")


@register.filter
def said(text):
    """Markup that is finished already stays as it is: pictures have a filter of their own."""
    if text is None or text == "" or isinstance(text, SafeData):
        return text
    return say(str(text))


@register.filter
def said_picture(markup):
    """A picture drawn on the server, its words said."""
    if not markup or get_language() in (None, "en"):
        return markup
    return mark_safe(PICTURE_TEXT.sub(
        lambda found: escape(say(unescape(found[0]))), str(markup)))


@register.filter
def said_each(texts):
    """Several texts, to be joined or walked through."""
    return [said(text) for text in texts]
