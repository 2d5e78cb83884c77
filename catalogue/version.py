"""The version of the program, as the command and the sheets tell it."""

VERSION = "0.1.0"
