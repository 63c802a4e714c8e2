"""What a teacher asks for, as functions over values: text and bytes in, values out.

Whatever cannot be done raises ``Refused`` with every problem that was found. A job neither
prints nor ends the program, needs no file and leaves nothing behind in the process; ``folders``
alone knows the disk. Layouts are loaded by the jobs that plan or draw pages, no sooner.
"""

from rungsheet.desk.problems import Problem, Refused

__all__ = ["Problem", "Refused"]
