"""After the lesson: the mark sheet, what it says of each pupil and the class, what comes next."""
