"""The names that have a meaning of their own: facts of an album, settings of each kind of statement, built-in words."""

FUNCTION_NAMES = (
    "min",
    "max",
    "sum",
    "count",
    "whole",
    "square_root",
    "choose",
    "stock",
    "span",
    "placed",
    "skew",
    "off_by",
    "on_paper",
    "thickness",
    "steepest",
    "wedge",
    "middles_apart",
    "face_to_face",
    "lies_under",
    "lies_level",
    "mitre",
    "round",
    "notch",
    "thumb_notch",
    "taper",
    "window",
    "slit",
)
BUILT_IN_NAMES = ("its", "yes", "no", "nothing", *FUNCTION_NAMES)
HAND_FACTS = ("cut_error", "score_error", "fold_error", "place_error")
ALBUM_FACTS = ("title", "ruler", "show", "about", "moving_adhesive", "static_adhesive", *HAND_FACTS, "edition")
JOIN_SETTINGS = ("by", "moving", "turned", "after", "before", "tip", "caution")
REQUIREMENT_SETTINGS = ("way_out", "may_be_meant")
GATHERING = ("cuts", "scores", "folds", "gathers")
STEP_SETTINGS = ("after", "before", "reads", "least", "most", "shown", "tip", "caution", *GATHERING)
CREASE_SETTINGS = ("on", "over", "follows", "after", "before", "tip", "caution")
PIECE_SETTINGS = ("height", "width", "grain", "against_grain", "left", "right", "face", "loose")
WORDS_OF_SETTING = {
    "grain": ("height", "width", "any"),
    "against_grain": ("refuse", "warn"),
    "loose": ("yes", "no"),
    "bends": ("yes", "no", "valley", "mountain"),
}
