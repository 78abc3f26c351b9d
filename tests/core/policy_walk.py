"""Ask every address as every person, each time in a world that nobody has touched before."""
import json
import re
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlencode

from django.core.signals import request_finished
from django.db import close_old_connections, connection, transaction
from django.test import Client
from django.utils import timezone

from core.accounts.models import User
from core.accounts.services.api_tokens import issue_token
from tests.core.header_faults import header_faults
from tests.core.policy_addresses import address, body, is_api

GRID = Path(__file__).with_name("policy_grid.txt")
WRITES = re.compile(r'\s*(?:INSERT\s+INTO|UPDATE|DELETE\s+FROM|REPLACE\s+INTO)\s+"?(\w+)"?',
                    re.IGNORECASE)
# Who is signed in, and how often somebody asked, is written down of everybody, let in or not.
NOT_COUNTED = {"django_session", "core_bucket", "cache", "usersessions_usersession",
               "accounts_apitoken"}
LET_IN, REFUSED, HIDDEN, SIGN_IN, FACTOR, TOMBSTONE, BROKEN = "YNHSFT!"
FORM = "application/x-www-form-urlencoded"


@dataclass(frozen=True)
class Line:
    """One address and method of the grid: by person, the letters of all states."""

    name: str
    method: str
    letters: dict[str, str]

    @property
    def varies(self):
        """Whether the answer hangs on the state; else one state is enough to ask in."""
        return any(len(set(each)) > 1 for each in self.letters.values())


def read_grid(text: str) -> tuple[list[str], list[str], list[Line]]:
    """(people, states, lines)"""
    rows = text.splitlines()
    people, states = (next(row.split()[2:] for row in rows if row.startswith(f"# {what}:"))
                      for what in ("people", "states"))
    lines = [row.split() for row in rows if not row.startswith("#")]
    return people, states, [Line(name, method, dict(zip(people, letters, strict=True)))
                            for name, method, *letters in lines]


class Writes(list):
    """As an execute wrapper: the tables that were written to."""

    def __call__(self, execute, sql, params, many, context):
        found = WRITES.match(sql)
        if found and found.group(1) not in NOT_COUNTED:
            self.append(found.group(1))
        return execute(sql, params, many, context)


def client_of(who, world):
    """The person as signed in, or nobody."""
    client, user = Client(raise_request_exception=False), world.people[who]
    if user is not None:
        client.force_login(user, second_factor=who != "no_factor")
    client.token = _token_of(user, who)
    return client


def _token_of(user, who):
    """What a program of that person sends: for the API, which reads no sessions."""
    if user is None:
        return {}
    _, secret = issue_token(owner=user, name=who, scopes=("read", "contribute"), days=1)
    return {"Authorization": f"Bearer {secret}"}


def asked(client, world, who, line):
    """(letter, tables written to, faults of its headers) of one request, all of it undone."""
    writes, cookies = Writes(), client.cookies.copy()
    sent = _sent(client, world, line)
    with transaction.atomic():
        if who.startswith("suspended"):
            User.objects.filter(pk=world.people[who].pk).update(suspended_at=timezone.now())
        with connection.execute_wrapper(writes):
            answer = client.generic(line.method, address(line.name, world, line.method), **sent)
            _let_go(answer)
        transaction.set_rollback(True)
    client.cookies = cookies                 # a session that ended there is there again
    faults = header_faults(line.name, answer, signed_in=world.people[who] is not None)
    return letter_of(answer), list(writes), list(faults)


def _sent(client, world, line):
    if is_api(line.name):
        told = {} if line.method == "GET" else {
            "data": json.dumps(body(line.name, world)), "content_type": "application/json"}
        return told | {"headers": client.token}
    if line.method == "POST":
        return {"data": urlencode(body(line.name, world), doseq=True), "content_type": FORM}
    return {}


def _let_go(answer):
    """Close what it opened, but not the connection that holds our transaction, as a server would.
    """
    request_finished.disconnect(close_old_connections)
    try:
        answer.close()
    finally:
        request_finished.connect(close_old_connections)


def letter_of(answer):
    place = answer.headers.get("Location", "")
    if answer.status_code == 302 and place.startswith("/sign-in/?"):
        return SIGN_IN
    if answer.status_code == 302 and place.startswith("/second-factor/"):
        return FACTOR
    known = {401: REFUSED, 403: REFUSED, 404: HIDDEN, 410: TOMBSTONE}
    if answer.status_code in known:
        return known[answer.status_code]
    return BROKEN if answer.status_code >= 500 or answer.status_code in (405, 429) else LET_IN


def differences(world, clients, lines, at):
    """What is answered otherwise than the lines say, or writes though refused.

    at : place of the world's state among the letters
    """
    for line in lines:
        for who, client in clients.items():
            wanted = line.letters[who][at]
            got, writes, faults = asked(client, world, who, line)
            if got != wanted:
                yield f"{line.name} {line.method}, {who}, {world.state}: {got}, not {wanted}"
            elif got != LET_IN and writes:
                yield f"{line.name} {line.method}, {who}, {world.state}: refused, yet wrote " \
                      f"to {', '.join(sorted(set(writes)))}"
            yield from (f"{line.name} {line.method}, {who}, {world.state}: {fault}"
                        for fault in faults)
