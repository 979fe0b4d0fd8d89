"""Text that a spreadsheet program would take for a formula, made harmless and made itself again.

A cell that begins with = + - @ or a tab may be run as a formula where a file of CSV is opened, or
where a sheet is saved as one. A single quote in front keeps it text (OWASP Application Security
Verification Standard 5.0, requirement 1.2.10). Text that looks guarded already gets one quote more,
so that taking one away always gives back what was written.
"""

import re

# The wide signs do the same where letters are wide.
_ACTS = r"'*[\s\0]*[=+\-@\t\r\n\0＝＋－＠]"
_UNGUARDED = re.compile(_ACTS)
_GUARDED = re.compile("'" + _ACTS)


def guarded(text: str) -> str:
    """Text that no spreadsheet program runs.

    >>> guarded("=1+1"), guarded("'=1+1"), guarded("4-4-4"), guarded("'tis")
    ("'=1+1", "''=1+1", '4-4-4', "'tis")
    """
    return f"'{text}" if _UNGUARDED.match(text) else text


def unguarded(text: str) -> str:
    """What a guarded text was made from.

    >>> unguarded("'=1+1"), unguarded("''=1+1"), unguarded("'tis")
    ('=1+1', "'=1+1", "'tis")
    """
    return text[1:] if _GUARDED.match(text) else text
