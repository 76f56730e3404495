"""Two or more results on shared draws."""
