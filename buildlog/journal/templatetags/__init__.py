"""What the templates of the journal use."""
