"""The client of fixtures/client does what its README says, against a server that runs."""
import importlib.util
import socket
import threading
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

from core.accounts.services.api_tokens import issue_token
from teardowns.models import Measurement, Unit
from tests.cast import person
from tests.handing_in import with_plate
from tests.photographs import photograph
from tests.published import published

FILE = Path(__file__).resolve().parents[2] / "fixtures" / "client" / "underplate_client.py"
spec = importlib.util.spec_from_file_location("underplate_client", FILE)
client = importlib.util.module_from_spec(spec)
spec.loader.exec_module(client)


@pytest.fixture
def alice(transactional_db):
    return person("alice")


@pytest.fixture
def token(alice):
    return issue_token(owner=alice, name="client", scopes=("read", "contribute"), days=1)[1]


def test_a_unit_is_read_and_all_pages_are_followed(live_server, alice):
    for number in range(5):
        unit = Unit.objects.create(contributor=alice, title=f"Veltrice VQ-{number}")
        published(with_plate(unit, alice))
    site = client.Client(live_server.url)
    rows = list(site.pages("/units", "units", size=2))
    assert [row["title"] for row in rows] == [f"Veltrice VQ-{n}" for n in (4, 3, 2, 1, 0)]
    unit = site.get(f"/units/{rows[0]['unit']}")
    assert unit == site.get(f"/units/{rows[0]['unit']}") and unit["version"] == 1


def test_a_unit_is_begun_filled_photographed_and_handed_in(live_server, token, tmp_path):
    site = client.Client(live_server.url, token)
    number = site.start_unit("Veltrice VQ-45, 45 W")["unit"]
    site.put_row(number, "printed_texts", "plate", {"source": "plate", "text": "OUTPUT 20V 2.25A"})
    site.put_row(number, "measurements", "mass", {"quantity": "mass_total", "value": 0.061})
    photo = site.send_photo(number, photograph(tmp_path), stage="opened")
    with pytest.raises(client.Problem) as refused:
        site.submit(number)
    assert refused.value.status == 422
    assert refused.value.errors[0]["pointer"] == f"/photos_looked_at/{photo['key']}"
    done = site.submit(number, photos_looked_at={photo["key"]: 1})
    assert done["status"] == Unit.objects.get().status == "submitted"


def test_a_change_is_made_on_what_stands_there_now(live_server, token):
    site = client.Client(live_server.url, token)
    number = site.start_unit("Veltrice VQ-45")["unit"]
    site.put_row(number, "measurements", "mass", {"quantity": "mass_total", "value": 0.061})
    seen = []

    def dry(row):
        if not seen:                    # somebody else is faster
            client.Client(live_server.url, token).change_row(
                number, "measurements", "mass", lambda other: other | {"value": 0.06})
        seen.append(row["value"])
        return row | {"note": "Dry."}

    site.change_row(number, "measurements", "mass", dry)
    stored = Measurement.objects.get()
    assert (seen, stored.value, stored.note) == ([0.061, 0.06], 0.06, "Dry.")


def test_it_waits_as_long_as_it_is_told_and_no_longer(live_server, settings, transactional_db):
    settings.API_READS = 1
    slept = []
    site = client.Client(live_server.url, patience=90, sleep=slept.append)
    site.get("/licence")
    with pytest.raises(client.Problem, match="429"):
        site.get("/quantities")
    assert slept and sum(slept) <= 90 and all(each >= 1 for each in slept)


def test_a_post_whose_answer_was_lost_is_done_once(live_server, token):
    """A proxy that lets the request through and drops the first answer."""
    with Dropping(live_server.url) as proxy:
        site = client.Client(proxy.url, token, sleep=lambda pause: None)
        assert site.start_unit("Veltrice VQ-45")["unit"] == Unit.objects.get().pk
        assert proxy.asked == 2


class Dropping:
    """Passes POSTs on; of the first it closes the connection instead of answering."""

    def __init__(self, behind):
        outer = self
        self.asked = 0

        class Handler(BaseHTTPRequestHandler):
            def do_POST(self):
                body = self.rfile.read(int(self.headers["Content-Length"]))
                kept = {name: self.headers[name] for name in (
                    "Authorization", "Content-Type", "Idempotency-Key")}
                with client.urlopen(client.Request(behind + self.path, body, kept)) as answer:
                    said = answer.read()
                outer.asked += 1
                if outer.asked == 1:
                    self.connection.shutdown(socket.SHUT_RDWR)
                    return
                self.send_response(201)
                self.send_header("Content-Length", str(len(said)))
                self.end_headers()
                self.wfile.write(said)

            def log_message(self, *words):
                pass

        self.server = HTTPServer(("127.0.0.1", 0), Handler)
        self.url = f"http://127.0.0.1:{self.server.server_port}"

    def __enter__(self):
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        return self

    def __exit__(self, *error):
        self.server.shutdown()
        self.server.server_close()


def test_it_needs_nothing_but_the_standard_library():
    import ast
    import sys
    names = {alias.name for node in ast.walk(ast.parse(FILE.read_text("utf-8")))
             if isinstance(node, ast.Import) for alias in node.names}
    names |= {node.module for node in ast.walk(ast.parse(FILE.read_text("utf-8")))
              if isinstance(node, ast.ImportFrom)}
    assert {name.partition(".")[0] for name in names} <= sys.stdlib_module_names
