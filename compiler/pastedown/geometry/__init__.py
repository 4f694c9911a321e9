"""Everything with its lengths worked out: parts, flat pieces, folds and joins."""
