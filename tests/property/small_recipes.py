"""Small recipes made up at random: sensible but for a slip here and there in a name, a dimension, a bound or a join."""

from random import Random

LENGTHS = ("1 in", "3/4 in", "20 mm", "2 1/2 in", "0.5in", "6 cm", "9 in", "1/3 in", "4 1/16 in", "55 pt", "margin")
ODD_LENGTHS = ("0 in", "-1/8 in", "40 ft", "nobody", "leaf.width", "its.width", "fact_1")
NUMBERS = ("1", "2", "3", "1/2", "2.5", "10 %", "paper_count")
OTHERS = ("0", "-1", "1000000", "45 deg", "216 gsm", "3 g", "12.50 EUR", '"word"', "yes", "nothing", "12 in x 9 in",
          "[1 in, 2 in]")  # fmt: skip
LINES = {"height": ("head", "tail", "mid_height", "line"), "width": ("spine", "fore_edge", "mid_width")}


class SmallRecipe:
    """One recipe. `slips` is how likely each choice is a wrong one."""

    def __init__(self, seed: int, slips: float) -> None:
        self.chance = Random(seed)
        self.slips = slips
        self.names = 0
        self.carried: list[str] = ["leaf[1]", "leaf[2]", "single"]

    def text(self) -> str:
        lines = ["edition = 1", self.component(), "album made {", *self.stocks(), "margin = 1/4 in", "paper_count = 2"]
        lines += [
            f"part leaf[k from 1 to {self.slip('2', '0', '-1', '1/2', 'margin', '1000000000', 'nobody')}] = sheet("
        ]
        lines += [f"paper: card, height: {self.length()})"]
        lines += [
            f"part single = sheet(paper: {self.slip('card', 'glue', 'card(caliper: 3 pt)')}, height: {self.length()})"
        ]
        lines += [self.statement() for _ in range(self.chance.randrange(1, 7))]
        lines += ["}"]
        if self.chance.random() < 0.5:
            lines += [f"variant other of {self.slip('made', 'maid')} {{", *self.amendments(), "}"]
        return "\n".join(lines)

    def slip(self, right: str, *wrong: str) -> str:
        return self.chance.choice(wrong) if self.chance.random() < self.slips else right

    def pick(self, *choices: str) -> str:
        return self.chance.choice(choices)

    def name(self) -> str:
        self.names += 1
        return f"fact_{self.names}" if self.chance.random() > self.slips else "fact_1"

    def stocks(self) -> list[str]:
        caliper = self.slip("caliper: 12 pt, ", "", "caliper: 0 in, ", "caliper: 3, ")
        grain = self.pick("marked", "long", "short", "none", "unknown")
        return [
            f"card = stock(kind: {self.slip('card', 'crad', 'tape')}, sheet: 24 in x 36 in, {caliper}grain: {grain})",
            f"sticky = stock(kind: tape, roll_width: {self.slip('1/4 in', '0 in')}, caliper: 4 pt)",
            "glue = stock(kind: glue)",
        ]

    def length(self, depth: int = 0) -> str:
        if depth > 1 or self.chance.random() < 0.5:
            return self.slip(self.pick(*LENGTHS), *ODD_LENGTHS, *NUMBERS, *OTHERS)
        inner = [self.length(depth + 1) for _ in range(2)]
        return self.pick(
            f"({inner[0]} + {inner[1]})",
            self.slip(f"(10 in - {inner[1]})", f"({inner[0]} - {inner[1]})"),
            f"{self.number(depth + 1)} * {inner[0]}",
            f"{inner[0]} / {self.number(depth + 1)}",
            f"min({inner[0]}, {inner[1]})",
            f"sum([{inner[0]}, {inner[1]}])",
            f"choose({self.condition(depth + 1)}, yes: {inner[0]}, no: {inner[1]})",
            f"({inner[0]} rounded {self.slip(self.pick('up', 'nearest'), 'donw')} to {self.slip('1/8 in', '0 in', '2')})",
        )

    def read(self) -> str:
        """A length that is read of a part."""
        return self.slip(
            self.pick("min(leaf.height)", "single.width", "leaf[1].height", "leaf[2].body.width",
                      "span(single.body.tail, to: single.body.line, along: height, pose: single.folded)",
                      "span(single.body.tail, to: single.body.head, along: height, pose: flat)"),
            "leaf[9].width", "leaf[1/2].width", "leaf.nothing", "single.body.head", "count(single)", "single",
            "span(single.body.spine, to: single.body.head, along: height, pose: flat)",
            "span(single.body.tail, to: leaf[1].body.head, along: height, pose: flat)",
        )  # fmt: skip

    def number(self, depth: int = 0) -> str:
        if depth > 1 or self.chance.random() < 0.6:
            return self.slip(self.pick(*NUMBERS), *LENGTHS, *OTHERS)
        return self.pick(
            f"({self.length(depth + 1)} / {self.length(depth + 1)})",
            f"(1 + whole({self.number(depth + 1)}))",
            f"({self.number(depth + 1)} + {self.number(depth + 1)})",
            "count(leaf)",
        )

    def condition(self, depth: int = 0) -> str:
        sign = self.pick("<", "<=", ">", ">=", "is")
        plain = f"{self.length(depth)} {sign} {self.length(depth)}"
        return self.slip(plain, self.length(depth), "yes", "margin is yes", "card is glue", '"a" > "b"')

    def component(self) -> str:
        default = self.slip("height / 2 + 1 in", "width", "height * height", "2", "0 in")
        return f"""
component sheet "A sheet with a flap." {{
  takes paper: stock{self.slip("", "(kind: card)", "(kind: crad)")} "what it is cut from"
  takes height: length from 1 pt to {self.slip("100 ft", "1/2 in", "3")} "of the body"
  takes width: length(mark: {self.slip("up", "uq")}) = {default} "across"
  takes lined: {self.slip("yes_no", "count", "yesno")} = {self.slip("no", "maybe", "3")}
  piece body from paper, width: width, left: spine, right: {self.slip("fore_edge", "spine")}, loose: yes {{
    run {self.slip("tail to head", "head to tail", "tail to tail", "spine to fore_edge")} {{
      panel flap: {self.slip("1/2 in", "0 in", "height - height", "nobody")}
      {self.slip("fold line: valley", "fold line: vally", "", "fold line: valley fold again: mountain")}
      panel rest: height
    }}
    {
            self.slip(
                "",
                "head_left = mitre(1/4 in)",
                "spine = notch(width: 1/4 in, depth: 1/8 in)",
                "head = round(9 in)",
                "hole = window(height: 1/8 in, width: 1/8 in)",
                "nonsense = 3",
                "spine = taper(1/8 in)",
            )
        }
  }}
  if {self.slip("lined", "height > 2 in", "nobody")} {{
    piece lining from paper, height: height, width: width, loose: yes
  }}
  pose folded {{ body.line = {self.slip(self.pick("shut", "square", "flat"), "30 deg", "shot")} }}
}}"""

    def statement(self) -> str:
        name = self.name()
        statements = (
            lambda: f"{self.pick('', 'fixed ')}{name} = {self.pick(self.length(), self.read())}",
            lambda: (
                f'prefer {name}: {self.condition()} because "it is {{{self.length()}}}", way_out: "try {{{self.number()}}}"'
            ),
            lambda: f'require {name}: {self.read()} > {self.slip("0 in", "99 ft", "0")} because "so"',
            lambda: self.join(name),
            lambda: f"close {name}: {self.face(self.part())} to {self.face(self.part())}",
            lambda: (
                f'step {name}: "Look at {{{self.length()}}}.", after: {self.slip(self.part(), name, "leaf", "glue")}'
            ),
            lambda: f"{self.path()} = {self.slip(self.length(), self.number(), 'nothing')}",
            lambda: (
                f"each k from 1 to {self.number()} {{ piece {name}[k] from card, height: k * 1 in, width: 2 in, loose: yes }}"
            ),
            lambda: f"if {self.condition()} {{ {name} = {self.length()} }}",
            lambda: (
                f"{self.slip(self.part(), 'leaf[9]', 'margin')} with {{ width = {self.slip('its.height', 'its.width')} }}"
            ),
        )
        return self.chance.choice(statements)()

    def part(self) -> str:
        return self.pick("leaf[1]", "leaf[2]", "single")

    def join(self, name: str) -> str:
        what = self.carried.pop() if self.carried else "single"
        to = self.carried[-1] if self.carried else "leaf[1]"
        lines = " ".join(
            f"align {what}.body.{self.slip(self.pick(*LINES[axis]), 'nose')} to {to}.body.{self.pick(*LINES[axis])}"
            for axis in ("height", self.slip("width", "height"))
        )
        by = self.slip(self.pick("sticky", "glue"), "card", "nobody")
        return f"join {name}: {self.face(what)} to {self.face(to)}, by: {by}, moving: {self.pick('yes', 'no')} {{ {lines} }}"

    def face(self, part: str) -> str:
        panel = self.pick("flap.", "rest.", "")
        return self.slip(
            f"{part}.body.{panel}{self.pick('face', 'back')}", f"{part}.body", "leaf.body.face", "nobody.face"
        )

    def path(self) -> str:
        return self.slip(
            self.pick("leaf[1].width", "leaf.width", "leaf[2].height", "leaf[2].body.width"),
            "leaf", "leaf[1]", "single", "leaf.lined", "card", "leaf[9].width", "sticky.caliper", "fact_1",
        )  # fmt: skip

    def amendments(self) -> list[str]:
        return [
            f"single with {{ width = {self.slip('its.height', 'its.width', 'margin')} lined = {self.slip('yes', '3')} }}",
            f"leaf[1].height = {self.length()}",
            self.slip(
                "", f"{self.path()} = {self.length()}", "margin = nothing", "leaf = nothing", "part leaf[1] = sheet()"
            ),
        ]
