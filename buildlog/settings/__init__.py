"""Django's settings: `base` is shared; `demonstration` (the default), `production` and `testing` build on it."""
