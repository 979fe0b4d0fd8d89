"""One door per solver."""
