"""What RFC 4287 asks of a feed document, on what our own pages answer."""
import re
from urllib.parse import urlsplit
from xml.etree import ElementTree

ATOM = "{http://www.w3.org/2005/Atom}"
# 3.3 refers to RFC 3339, 5.6: a date and time with an offset.
DATE = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)\Z")


def feed_of(response):
    """The feed element of an answer, checked."""
    assert response.headers["Content-Type"].startswith("application/atom+xml")     # 7
    root = ElementTree.fromstring(response.content)
    check_feed(root)
    return root


def check_feed(root):
    assert root.tag == f"{ATOM}feed"
    check_required(root)                                                           # 4.1.1
    assert _links(root, "self")                                                    # 4.1.1, SHOULD
    for entry in entries_of(root):
        check_entry(root, entry)
    told = [(text(entry, "id"), text(entry, "updated")) for entry in entries_of(root)]
    assert len(set(told)) == len(told)                                             # 4.1.1


def check_entry(root, entry):
    check_required(entry)                                                          # 4.1.2
    assert entry.find(f"{ATOM}author/{ATOM}name") is not None                      # 4.1.2, 3.2.1
    links = _links(entry, "alternate")
    assert len(links) == 1 and is_absolute(links[0].get("href"))                   # 4.1.2
    for name in ("title", "summary"):
        found = entry.findall(f"{ATOM}{name}")
        assert len(found) <= 1                                                     # 4.1.2
        assert all(one.get("type", "text") in {"text", "html"} for one in found)   # 3.1.1
        assert all(len(one) == 0 for one in found)                                 # 3.1.1.1, .2
    check_dates(entry.findall(f"{ATOM}published"))


def check_required(element):
    """Exactly one id, one title and one date; the id a whole address (4.2.6), the date a date."""
    for name in ("id", "title", "updated"):
        assert len(element.findall(f"{ATOM}{name}")) == 1, name
    assert urlsplit(text(element, "id")).scheme
    check_dates(element.findall(f"{ATOM}updated"))


def check_dates(found):
    assert all(DATE.match(one.text) for one in found)


def is_absolute(address):
    parts = urlsplit(address)
    return parts.scheme in {"http", "https"} and bool(parts.netloc)


def entries_of(root):
    return root.findall(f"{ATOM}entry")


def text(element, name):
    return element.findtext(f"{ATOM}{name}")


def _links(element, rel):
    return [one for one in element.findall(f"{ATOM}link") if one.get("rel", "alternate") == rel]
