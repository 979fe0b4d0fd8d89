"""A bare Django page behind the same server: what a page costs that knows nothing and asks nothing.

python -c "from benchmarks.bare_page import serve; serve()"
"""

import django
from django.conf import settings
from django.core.handlers.wsgi import WSGIHandler
from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.urls import path
from waitress.server import create_server

from halfpail.cli.serve import LIMITS

SMALL = """<!doctype html><html lang="en"><head><title>{{ title }}</title></head>
<body><h1>{{ title }}</h1>
<ul>{% for word in words %}<li>{{ word }}</li>{% endfor %}</ul></body></html>"""


def small(_: HttpRequest) -> HttpResponse:
    """One small template, made anew each time, as the pages' are from theirs."""
    page = engines["django"].from_string(SMALL)
    return HttpResponse(page.render({"title": "Bare", "words": ["bags", "beds", "mixes"]}))


urlpatterns = [path("", small)]


def serve() -> None:
    """Serve the page until the process is ended; its address is the first line told."""
    settings.configure(
        ALLOWED_HOSTS=["127.0.0.1"],
        ROOT_URLCONF="benchmarks.bare_page",
        MIDDLEWARE=["django.middleware.common.CommonMiddleware"],
        TEMPLATES=[{"BACKEND": "django.template.backends.django.DjangoTemplates"}],
    )
    django.setup()
    server = create_server(WSGIHandler(), host="127.0.0.1", port=0, ident=None, **LIMITS)
    print(f"A bare page is at http://127.0.0.1:{server.effective_port}/", flush=True)
    server.run()
