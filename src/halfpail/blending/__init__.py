"""A small solver-neutral programme language in which every row says why it is there."""
