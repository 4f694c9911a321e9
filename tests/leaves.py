"""Three leaves that are cut and scored by hand, each read at a step; what else the album says stands for BODY."""

LEAVES = """\
edition = 1
use cardstock from stocks
component leaf "A leaf with one flap." {
  takes paper: stock
  takes height: length
  piece sheet from paper, width: 4 in, loose: yes {
    run tail to head { panel flap: 1 in   fold line: mountain   panel body: height }
  }
  step read: "Measure.", reads: sheet.body.size
}
album book "Leaves" {
  ruler = inches to 1/16
  kraft = cardstock(sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  part leaf_of[k from 1 to 3] = leaf(paper: kraft, height: 7 in)
BODY
}
"""
