"""What every page needs before any ink: values in millimetres, type, words, paper."""
