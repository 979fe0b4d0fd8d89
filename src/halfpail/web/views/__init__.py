"""Views: bind a form, ask a use case, hand a page object to a template."""
