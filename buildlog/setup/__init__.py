"""Makes the virtual environment that everything else runs in; may import the standard library alone.

Offers `prepare`.
"""

from buildlog.setup.ready import is_ready


def prepare(purpose: str) -> None:
    """See that the environment for `purpose`, `run` or `development`, stands, and return inside it.

    Outside of `.venv` this starts the same command again inside it and does not return.
    """
    if purpose == "run" and is_ready():
        return
    from buildlog.setup.environment import prepare as look_closer

    look_closer("development" if purpose == "development" else "run")


__all__ = ["prepare"]
