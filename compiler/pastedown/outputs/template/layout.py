"""How a sheet of printer paper is shared out, in millimetres: notes above, the drawing, legend and check bars below."""

from fractions import Fraction

from attrs import frozen

from pastedown.outputs.template.paper import MARGIN, Paper

HEAD_HEIGHT = Fraction(37, 2)
FOOT_HEIGHT = Fraction(21)


@frozen
class Layout:
    """The parts of a sheet, in millimetres from its upper left corner; all of them within the margins."""

    paper: Paper

    @property
    def left(self) -> Fraction:
        return MARGIN.millimetres

    @property
    def right(self) -> Fraction:
        return self.paper.width.millimetres - MARGIN.millimetres

    @property
    def head_top(self) -> Fraction:
        return MARGIN.millimetres

    @property
    def drawing_top(self) -> Fraction:
        return self.head_top + HEAD_HEIGHT

    @property
    def drawing_bottom(self) -> Fraction:
        return self.foot_top

    @property
    def foot_top(self) -> Fraction:
        return self.paper.height.millimetres - MARGIN.millimetres - FOOT_HEIGHT

    @property
    def drawing_width(self) -> Fraction:
        return self.right - self.left

    @property
    def drawing_height(self) -> Fraction:
        return self.drawing_bottom - self.drawing_top
