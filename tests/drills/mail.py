"""The mail server is away, or takes the call and says nothing: people go on, every message comes.

    python -m tests.drills.mail [--people 10] [--postgres]

People sign up, ask for a new password and are told what is new while nobody listens at the mail
server's port; some while somebody listens and is silent. Then a server takes messages, and the
worker as shipped sends what waited. Search lies in the database, and nothing here scans files for
viruses: of what may be away, mail and storage (tests.drills.storage) are all.
"""
from __future__ import annotations

import argparse
import re
import socket
import socketserver
import sys
import threading
import time
from collections import Counter
from contextlib import contextmanager
from email import message_from_bytes, policy

from tests.drills.one_host import HERE, Findings, free_port, needs_root, site
from tests.drills.two_hosts_servers import wait_for
from tests.drills.visitor import Visitor
from tests.drills.writing import people

PASSWORD, LONGEST, ASKED_AGAIN, COMES = "7 brass kettles, warm", 12.0, 3, 90.0
PAGES = ("/", "/units/", "/sign-up/", "/health/ready")


class Taking(socketserver.StreamRequestHandler):
    """As much of a mail server as a message takes (RFC 5321, 4.1.1)."""

    def handle(self):
        self.say("220 here")
        while line := self.rfile.readline().decode().strip():
            verb = line.split(":")[0].split()[0].upper()
            if verb == "DATA":
                self.say("354 go on")
                self.server.taken.append(b"".join(iter(self.rfile.readline, b".\r\n")))
            self.say("221 bye" if verb == "QUIT" else "250 well")
            if verb == "QUIT":
                return

    def say(self, words):
        self.wfile.write(f"{words}\r\n".encode())


class MailServer(socketserver.ThreadingTCPServer):
    allow_reuse_address, daemon_threads = True, True

    def __init__(self, port: int):
        super().__init__((HERE, port), Taking)
        self.taken: list[bytes] = []
        threading.Thread(target=self.serve_forever, daemon=True).start()

    def messages(self):
        return [message_from_bytes(each, policy=policy.default) for each in self.taken]


@contextmanager
def silent(port):
    """Takes calls and says nothing."""
    with socket.create_server((HERE, port), backlog=50):
        yield


def sign_up(made, number, prefix="newcomer"):
    """(seconds, status) of somebody at a place of their own in the network."""
    visitor, begun = Visitor(made.port, f"127.0.1.{number + 1}"), time.monotonic()
    status, _, _ = visitor.post("/sign-up/", username=f"{prefix}-{number}",
                                email=f"{prefix}-{number}@cast.example", password1=PASSWORD)
    return time.monotonic() - begun, status


def reset(made, number, address):
    visitor, begun = Visitor(made.port, f"127.0.2.{number + 1}"), time.monotonic()
    status, _, _ = visitor.post("/password/", email=address)
    return time.monotonic() - begun, status


def told(findings, what, answers):
    statuses = Counter(status for _, status in answers)
    longest = max(took for took, _ in answers)
    findings.say(f"{what}: answers; longest, s", f"{dict(statuses)}; {longest:.1f}",
                 f"302; {LONGEST:.0f}", set(statuses) == {302} and longest <= LONGEST)


def confirmed(made, messages, findings):
    """Each link opens once what it should; nobody else's."""
    from core.accounts.models import User

    statuses = Counter()
    for message in messages:
        found = re.search(r"https?://\S+/sign-up/confirm/\S+/", message.get_content())
        if found:
            statuses[Visitor(made.port).post(found[0])[0]] += 1
    sure = User.objects.filter(username__startswith="newcomer",
                               email_verified_at__isnull=False).count()
    findings.say("links followed, by status; addresses confirmed", f"{dict(statuses)}; {sure}",
                 f"302; {statuses.total()}", sure == statuses.total() > 0)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--people", type=int, default=10)
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("Mail away, on", "PostgreSQL" if given.postgres else "SQLite")
    port = free_port()
    with site(given.postgres, EMAIL_URL=f"smtp://{HERE}:{port}") as made:
        try:
            went_on(made, given.people, port, findings)
            came(made, given.people, port, findings)
        finally:
            for name in ("web", "worker"):
                made.print_errors_of(name)
    return findings.exit()


def went_on(made, count, port, findings) -> None:
    from teardowns.models import Notice
    from teardowns.services.notify import notify

    authors = people(2)
    made.serve()
    told(findings, "port closed: signed up", [sign_up(made, number) for number in range(count)])
    told(findings, "port closed: asked for a new password",
         [reset(made, number, f"drill-{number % 2}@cast.example")
          for number in range(ASKED_AGAIN * 2)])
    with silent(port):
        told(findings, "silent: signed up", [sign_up(made, number) for number in range(
            count, count + ASKED_AGAIN)])
    from core.accounts.models import User

    notify(list(User.objects.filter(username__in=[each.name for each in authors])), "published")
    made.manage("send_digests")
    findings.say("notices that wait", Notice.objects.count(), 2, Notice.objects.count() == 2)
    statuses = Counter(Visitor(made.port).get(page)[0] for page in PAGES)
    findings.say("meanwhile: pages", dict(statuses), "200", set(statuses) == {200})


def came(made, count, port, findings) -> None:
    """The worker as shipped; only what the clock says is made to be now."""
    from django.utils import timezone
    from django_q.models import Schedule

    from core.models import Letter
    from teardowns.models import Digest

    wanted = Counter({f"newcomer-{number}@cast.example": 1
                      for number in range(count + ASKED_AGAIN)})
    wanted |= Counter({f"drill-{number}@cast.example": ASKED_AGAIN + 1 for number in range(2)})
    findings.say("messages that wait; digests", f"{Letter.objects.count()}; "
                 f"{Digest.objects.filter(sent_at=None).count()}", f"{wanted.total() - 2}; 2",
                 (Letter.objects.count(), Digest.objects.filter(sent_at=None).count())
                 == (wanted.total() - 2, 2))
    server, begun = MailServer(port), time.monotonic()
    Schedule.objects.filter(name__in=["send_letters", "send_digests"]).update(
        next_run=timezone.now())
    made.start_worker()
    wait_for(lambda: not Letter.objects.exists()
             and not Digest.objects.filter(sent_at=None).exists(), COMES * 2)
    took = time.monotonic() - begun
    findings.say("a server takes messages: s until all were sent", f"{took:.0f}", COMES,
                 took <= COMES)
    came_to = Counter(str(message["To"]) for message in server.messages())
    findings.none("lost", list((wanted - came_to).elements()))
    findings.none("sent twice", list((came_to - wanted).elements()))
    ids = [message["Message-ID"] for message in server.messages()]
    findings.none("two under one Message-ID", len(ids) - len(set(ids)))
    confirmed(made, server.messages(), findings)
    server.shutdown()
    server.server_close()


if __name__ == "__main__":
    sys.exit(main())
