"""Pages are sent compressed to whoever takes that: a record with many drawings is a tenth then."""
from django.middleware.gzip import GZipMiddleware


class CompressedPages(GZipMiddleware):
    """Pages only: the API's strong ETags have to stay what `If-Match` gives back.

    Django's middleware adds a name of random length, so that a length tells nothing of a token.
    """

    def process_response(self, request, response):
        if response.get("Content-Type", "").startswith("text/html"):
            return super().process_response(request, response)
        return response
