"""Changes to the tables of workshops."""
