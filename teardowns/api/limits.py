"""How many requests a minute, and the header fields that say how many are left.

The fields are those of the IETF draft “RateLimit header fields for HTTP”
(draft-ietf-httpapi-ratelimit-headers, from its tenth edition, from memory): `RateLimit-Policy`
names the quota `q` and the window `w` in seconds, `RateLimit` what remains `r` and the seconds `t`
until all of it is back.
"""
import math
from time import time

from django.conf import settings
from django.http import HttpRequest, HttpResponse

from core.buckets import MINUTE, left_of, network_of, take
from core.problems import problem
from core.tallies import tallies

TOO_OFTEN = "Too many requests in a minute: come back in {} s. Longer pages save you most of " \
            "them, and the bulk data all."


class Allowance:
    """The bucket of one request: of its network, or of the owner of its token."""

    def __init__(self, request: HttpRequest, writes: bool):
        person = request.user.pk if request.user.is_authenticated else None
        self.writes, self.left = writes, 0.0
        self.name = "api-writes" if writes else "api-reads"
        self.owner = person or network_of(request)
        self.amount = settings.API_WRITES if writes else (
            settings.API_READS_OF_OWNER if person else settings.API_READS)
        if person:
            self.name += "-of-owner"

    def taken(self) -> HttpResponse | None:
        """None once a request was taken out of it, else the answer that says to wait."""
        bucket = self.name, self.owner, self.amount, MINUTE
        if self.writes:
            wait, self.left = take(*bucket), left_of(*bucket, time())
        else:
            wait, self.left = tallies.take(*bucket)
        if not wait:
            return None
        return self.told(problem(429, TOO_OFTEN.format(wait), headers={"Retry-After": str(wait)}))

    def told(self, response: HttpResponse) -> HttpResponse:
        full = math.ceil((self.amount - self.left) / self.amount * MINUTE)
        response["RateLimit-Policy"] = f'"{self.name}";q={self.amount};w={MINUTE:.0f}'
        response["RateLimit"] = f'"{self.name}";r={math.floor(self.left)};t={full}'
        return response
