"""A model of the design in three dimensions, as glTF 2.0 binary."""
