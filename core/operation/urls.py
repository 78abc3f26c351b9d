"""Addresses for whoever runs the site."""
from django.urls import path

from core.operation import views

urlpatterns = [
    path("health/alive", views.alive, name="alive"),
    path("health/ready", views.ready, name="ready"),
    path("metrics", views.metrics, name="metrics"),
]
