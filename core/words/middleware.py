"""The language of a request: what its reader chose, else what the browser asks for."""
from django.middleware.locale import LocaleMiddleware
from django.utils import translation

# What programs read is the same in every country.
FOR_PROGRAMS = ("/api/v1/", "/feeds/", "/static/", "/health/")


class ReadersLanguage(LocaleMiddleware):
    def process_request(self, request):
        if request.path_info.startswith(FOR_PROGRAMS):
            translation.activate("en")
            request.LANGUAGE_CODE = "en"
        else:
            super().process_request(request)

    def process_response(self, request, response):
        if request.path_info.startswith(FOR_PROGRAMS):
            return response
        return super().process_response(request, response)
