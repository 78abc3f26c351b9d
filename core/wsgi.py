"""The WSGI application that gunicorn serves."""
import os

from django.core.wsgi import get_wsgi_application
from django.urls import get_resolver

from core.words.said import load_catalogues

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
application = get_wsgi_application()
# Views and all they import are loaded now; else whoever asks first waits for it, some seconds.
get_resolver().url_patterns  # noqa: B018
load_catalogues()
