"""The views of the kept calculations."""
