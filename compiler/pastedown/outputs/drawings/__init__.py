"""Drawings of flat pieces, to scale: what is read off beside the work, where templates are what it is laid on."""
