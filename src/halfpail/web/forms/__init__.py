"""Forms: what people type, read into requests, each fault beside its field."""
