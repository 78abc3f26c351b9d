"""Settings and addresses of the site with Django's admin beside it, for tests.bench.admin_list."""
from django.urls import path

from core.settings import *  # noqa: F403
from core.settings import INSTALLED_APPS as OF_SITE

INSTALLED_APPS = [*OF_SITE, "django.contrib.admin"]
ROOT_URLCONF = "tests.bench.with_admin"


def __getattr__(name):
    """Addresses are made when somebody asks for them: by then the applications are there."""
    if name != "urlpatterns":
        raise AttributeError(name)
    from django.contrib import admin

    from core.urls import urlpatterns
    return [path("admin/", admin.site.urls), *urlpatterns]
