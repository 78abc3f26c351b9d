"""What of HTML a comment may hold, checked by Python's own reader of HTML."""
from html.parser import HTMLParser
from urllib.parse import urlsplit

ALLOWED = {"a": {"href", "rel"}, "ol": {"start"}, "p": set(), "em": set(), "strong": set(),
           "code": set(), "pre": set(), "ul": set(), "li": set(), "blockquote": set(), "br": set()}


class Reader(HTMLParser):
    """Collects every tag with its attributes, and whatever else is not plain text."""

    def __init__(self, html):
        super().__init__(convert_charrefs=True)
        self.tags, self.others, self.texts = [], [], []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, attrs))

    def handle_data(self, data):
        self.texts.append(data)

    def handle_comment(self, data):
        self.others.append(data)

    handle_decl = handle_pi = unknown_decl = handle_comment


def check_allowed(html):
    """No tag, attribute or address outside the list; every link marked as somebody else's."""
    read = Reader(html)
    assert not read.others
    for tag, attrs in read.tags:
        assert tag in ALLOWED and {name for name, _ in attrs} <= ALLOWED[tag], (tag, attrs)
        if tag == "a":
            check_link(dict(attrs))


def check_link(attrs):
    assert attrs["rel"] == "nofollow ugc noopener"
    if "href" in attrs:
        parts = urlsplit(attrs["href"])
        assert parts.scheme.lower() in {"http", "https"} and parts.hostname


def text_of(html):
    return "".join(Reader(html).texts)
