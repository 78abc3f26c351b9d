"""`{{ text|said }}`: what a room wrote, in the reader's language. Never what a person wrote."""
import re
from html import escape, unescape

from django import template
from django.utils.safestring import SafeData, mark_safe
from django.utils.translation import get_language

from core.words.as_written import AsWritten
from core.words.numbers import as_typed
from core.words.said import said as say

register = template.Library()
# An element with translate="no" stays as it is, with all in it: what a person wrote.
PICTURE_TEXT = re.compile(
    r"<(\w+)\b[^<>]*\stranslate=\"no\"[^<>]*>.*?</\1>|"
    r"(?<=>)[^<>]*(?:[^\W\d_]|\d\.\d)[^<>]*(?=<)|(?<=aria-label=\")[^\"]+(?=\")", re.DOTALL)

# Words and numbers of a formula; its symbols are the same in each language.
FORMULA_TEXT = re.compile(r"(?<=<mtext>)[^<]+|(?<=<mn>)[^<]+")
NO_BREAK = "\u00a0"             # in a formula a space at either end would be dropped


@register.filter
def said(text):
    """Markup that is finished already stays as it is: pictures have a filter of their own."""
    if text is None or text == "" or isinstance(text, SafeData):
        return text
    return say(text if isinstance(text, AsWritten) else str(text))


@register.filter
def said_picture(markup):
    """A picture drawn on the server, its words said."""
    if not markup or get_language() in (None, "en"):
        return markup
    return mark_safe(PICTURE_TEXT.sub(
        lambda found: found[0] if found[1] else escape(say(unescape(found[0]))), str(markup)))


@register.filter
def said_formula(markup):
    """A formula in MathML, its words said and its decimals in the language's form."""
    if not markup or get_language() in (None, "en"):
        return markup
    return mark_safe(FORMULA_TEXT.sub(lambda found: _in_formula(found[0]), str(markup)))


def _in_formula(text):
    plain = unescape(text).replace(NO_BREAK, " ")
    return escape(say(plain)).replace(" ", NO_BREAK)


@register.filter
def said_either(value):
    """A text, or markup that a room finished: its words said."""
    return said_picture(value) if isinstance(value, SafeData) else said(value)


@register.filter
def said_each(texts):
    """Several texts, to be joined or walked through."""
    return [said(text) for text in texts]


@register.filter
def typed(text):
    """Numbers of a field as they are typed in the reader's language."""
    return as_typed(str(text), get_language() or "en")
