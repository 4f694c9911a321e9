"""Folded paper by homogeneous matrices of numpy, from a description of its own: it knows the conventions of the language
(valleys rise towards the face, a fold turns about its score on the valley side), and nothing of the compiler.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

Numbers = NDArray[np.float64]


@frozen
class Strip:
    """What lies between two folds of a run, `wide` millimetres: with `turns` it turns as a whole, else what follows it
    turns about its far edge. `kind` says to which side and `degrees` how far."""

    wide: float
    turns: bool
    kind: str
    degrees: float


def rotation(point: tuple[float, float, float], axis: tuple[float, float, float], degrees: float) -> Numbers:
    """A right-handed turn about the line through a point along an axis one long, by the formula of Rodrigues."""
    k = np.array(axis)
    cross = np.array([[0, -k[2], k[1]], [k[2], 0, -k[0]], [-k[1], k[0], 0]])
    turn = np.radians(degrees)
    rotate = np.eye(3) + np.sin(turn) * cross + (1 - np.cos(turn)) * (cross @ cross)
    matrix = np.eye(4)
    matrix[:3, :3] = rotate
    matrix[:3, 3] = np.array(point) - rotate @ np.array(point)
    return matrix


def places(strips: Sequence[Strip], base: int, caliper: float, axis: str) -> list[Numbers]:
    """Where every strip of a run lies if the one numbered `base` stays, which turns nothing itself as a whole."""
    edges = np.cumsum([0.0, *(strip.wide for strip in strips)])
    found = {base: np.eye(4)}
    for number in range(base + 1, len(strips)):
        turn = _between(strips, number - 1, number)
        found[number] = found[number - 1] @ _fold(edges[number], *turn, caliper, axis)
    for number in range(base - 1, -1, -1):
        turn = _between(strips, number + 1, number)
        found[number] = found[number + 1] @ np.linalg.inv(_fold(edges[number + 1], *turn, caliper, axis))
    return [found[number] for number in range(len(strips))]


def _between(strips: Sequence[Strip], here: int, beyond: int) -> tuple[str, float]:
    """To which side and how far the paper turns on the way from one strip to the next."""
    if strips[here].turns:
        # A strip that bends keeps to the paper it comes from until it is square to what lies beyond.
        return strips[here].kind, min(strips[here].degrees, 90.0)
    if strips[beyond].turns:
        return strips[beyond].kind, max(strips[beyond].degrees - 90.0, 0.0)
    fold = strips[min(here, beyond)]
    return fold.kind, fold.degrees


def _fold(at: float, kind: str, degrees: float, caliper: float, axis: str) -> Numbers:
    height = 0.0 if kind == "valley" else -caliper
    lift = degrees if kind == "valley" else -degrees
    if axis == "width":
        # What lies to the right rises: a turn from x to z, which is a negative one about y.
        return rotation((at, 0.0, height), (0.0, 1.0, 0.0), -lift)
    return rotation((0.0, at, height), (1.0, 0.0, 0.0), lift)


def moved(place: Numbers, points: Numbers) -> Numbers:
    """Points, a row each, taken along."""
    taken: Numbers = (place @ np.column_stack([points, np.ones(len(points))]).T).T[:, :3]
    return taken
