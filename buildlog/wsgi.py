"""The WSGI application, for granian or any other server."""

import os

from django.core.wsgi import get_wsgi_application

from buildlog.setup.memory import collect_seldom

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "buildlog.settings.production")

application = get_wsgi_application()
collect_seldom()
