"""`{% once %}`: the number under which a form is acted on at most once."""
from uuid import uuid4

from django import template
from django.utils.html import format_html

from core.once import FIELD

register = template.Library()


@register.simple_tag
def once():
    return format_html('<input type="hidden" name="{}" value="{}">', FIELD, uuid4())
