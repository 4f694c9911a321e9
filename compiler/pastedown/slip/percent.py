"""Writes a scale as a percentage."""

from fractions import Fraction


def percent(scale: Fraction) -> str:
    """A scale as a percentage of at most two decimals."""
    hundredths = round(scale * 10_000)
    about = "" if scale * 10_000 == hundredths else "about "
    text = f"{hundredths // 100}.{hundredths % 100:02}".rstrip("0").rstrip(".")
    return f"{about}{text} %"
