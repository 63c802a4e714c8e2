"""Forms: how a question is asked. One module a form, one protocol, one table."""
