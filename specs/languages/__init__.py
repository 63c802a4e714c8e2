"""What pages say in which language: sayings, catalogues, and how a land writes them."""
