"""The bench's pages: calculators, published tables, the trade's words. They hold no workshop's data."""
