"""The pages as a Django application."""

from django.apps import AppConfig


class WebConfig(AppConfig):
    """Lets Django find templates, static files and tags in this package."""

    name = "halfpail.web"
    label = "web"
