"""Commands about workshops."""
