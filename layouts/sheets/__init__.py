"""Pages on paper for pupils: practice sheets, and worked examples to stick in books."""
