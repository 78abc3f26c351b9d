"""Take everything out of HTML that is not on a short list: the last gate before a page."""
from __future__ import annotations

from urllib.parse import urlsplit

import nh3

TAGS = {"a", "blockquote", "br", "code", "em", "li", "ol", "p", "pre", "strong", "ul"}
ATTRIBUTES = {"a": {"href"}, "ol": {"start"}}
SCHEMES = {"http", "https"}
REL = "nofollow ugc noopener"


def clean(html: str) -> str:
    """The HTML with nothing left but the listed tags and attributes; every link marked as others'.

    What a tag held is kept as text, except of `script` and `style`, which go whole.
    """
    html = html.encode("utf-8", "replace").decode()      # half a pair is no character
    left = nh3.clean(html, tags=TAGS, attributes=ATTRIBUTES, url_schemes=SCHEMES, link_rel=REL,
                     attribute_filter=_kept)
    # Who reads HTML leaves out one line feed behind `<pre>`, and so would the next reader.
    return left.replace("<pre>\n", "<pre>\n\n")


def _kept(tag, name, value):
    """The attribute's value, or None to drop it: whole web addresses, the start of a list."""
    if (tag, name) == ("a", "href"):
        return value if is_web_address(value) and "<" not in value else None
    if (tag, name) == ("ol", "start"):
        return value if value.isascii() and value.isdigit() and len(value) <= 9 else None
    if (tag, name) == ("a", "rel"):
        return REL
    return None              # `title` and `lang` among them, which nh3 keeps by itself


def is_web_address(value: str) -> bool:
    """Whether it names a host by http or https; `//host` and `/path` would be read as ours."""
    try:
        parts = urlsplit(value)
    except ValueError:
        return False
    return parts.scheme.lower() in SCHEMES and bool(parts.hostname)
