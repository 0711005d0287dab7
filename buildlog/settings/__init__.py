"""Django's settings: `base` is shared; `demonstration` (the default), `production`, `testing` add to it."""
