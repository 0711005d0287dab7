"""Makes the virtual environment that everything else runs in; may import the standard library alone.

Offers `prepare`.
"""

from buildlog.setup.environment import prepare

__all__ = ["prepare"]
