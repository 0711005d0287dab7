"""The journal of a build: its dated entries with their photographs. May import `builds` and below."""
