"""saltbridge: a bank of electrochemistry question templates becomes homework, practice, exams and marking."""

__version__ = "0.1.0"
