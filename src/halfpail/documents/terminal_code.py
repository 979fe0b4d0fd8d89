"""An address as a drawing of squares that a phone's camera reads off a terminal."""

from io import StringIO

QUIET_BORDER = 2


def terminal_code(address: str) -> str:
    """The drawing, two rows of squares in each line, light on dark."""
    import segno

    drawn = StringIO()
    segno.make_qr(address, error="l").terminal(out=drawn, border=QUIET_BORDER, compact=True)
    return drawn.getvalue().rstrip("\n")
