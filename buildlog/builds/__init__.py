"""Builds: from where they come, the pages that show them, and the commands that read and inspect them."""
