"""The WSGI application that gunicorn serves."""
import gc
import os

# What is loaded stays: looking through it for what may go, again and again, takes an eighth of the
# start. Frozen it is not looked through later either, and processes that are forked share it.
gc.disable()

from django.core.wsgi import get_wsgi_application  # noqa: E402
from django.urls import get_resolver  # noqa: E402

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
application = get_wsgi_application()
# Views and all they import are loaded now; else whoever asks first waits for it, some seconds.
get_resolver().url_patterns  # noqa: B018

from core.words.said import load_catalogues  # noqa: E402

load_catalogues()
gc.freeze()
gc.enable()
