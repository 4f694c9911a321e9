"""Pictures of pieces and parts in space, drawn as lines; sizes in millimetres."""
