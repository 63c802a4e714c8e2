"""The operations, each a place: its questions, conditions, counting, methods and mistakes."""
