"""Sound designs of any length, for measuring: many small components, each made once."""

_HEAD = """\
edition = 1
kraft = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, weight: 216 gsm, grain: long)
"""

_COMPONENT = """\
component leaf_{n} "A leaf with a turned edge." {{
  takes paper: stock "what it is cut from"
  takes height: length from 1 in to 11 in = 8 in "head to tail, finished"
  turn = {turn}/16 in "turned over at the tail"
  width = height * 3/4 rounded down to 1/8 in
  piece sheet from paper, height: height + turn, width: width, grain: height {{
    run tail to head {{
      panel flap: turn
      fold tail_fold: mountain
      panel body: height
    }}
  }}
  require wide_enough: width >= 2 * turn because "a leaf of {{width}} is too narrow for its turned edge"
}}
"""

_MADE = "  part made_{n} = leaf_{n}(paper: kraft, height: {height} 1/2 in)\n"


def design_of(lines: int) -> str:
    """A design of about so many lines, that no check refuses. The same number gives the same text."""
    each = _COMPONENT.count("\n") + _MADE.count("\n")
    count = max(1, (lines - _HEAD.count("\n") - 4) // each)
    components = "".join(_COMPONENT.format(n=n, turn=1 + n % 8) for n in range(1, count + 1))
    made = "".join(_MADE.format(n=n, height=4 + n % 6) for n in range(1, count + 1))
    return f'{_HEAD}{components}album measured "Made to be measured" {{\n  ruler = inches to 1/16\n{made}}}\n'
