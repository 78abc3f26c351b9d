"""The addresses of the API: those of its operations, its description, its page."""
from django.urls import path

from .documentation import api_documentation, api_openapi
from .openapi import api

ROOT = "api-root"       # ninja's own, which is no address of ours

urlpatterns = [
    path("api/", api_documentation, name="api_documentation"),
    path("api/v1/openapi.json", api_openapi, name="api_openapi"),
    *(path(f"api/v1/{each.pattern}", each.callback, name=each.name)
      for each in api.urls[0] if each.name != ROOT),
]
