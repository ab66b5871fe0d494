"""Several pictures on one sheet, one below the other."""

from collections.abc import Sequence
from dataclasses import replace

from shedlight.figures.scene import Drawn, Item, Layer, Path, Placement, Scene, Spot, Text, To


def stacked(key: str, title: str, description: str, scenes: Sequence[Scene]) -> Scene:
    """Pictures of one sheet, from top to bottom.

    Args:
        key: Begins every id in it.
        title: What the whole is, in one line.
        description: What it shows, for those who cannot see it.
        scenes: The pictures.
    """
    layers: list[Layer] = []
    top = 0.0
    for number, scene in enumerate(scenes, start=1):
        for layer in scene.layers:
            items = tuple(lowered(item, top) for item in layer.items)
            name = f"{number}-{layer.name}"
            layers.append(Layer(name, f"{scene.title}: {layer.title}", items, layer.shown))
        top += scene.height
    width = max(scene.width for scene in scenes)
    place = Placement(0.0, 0.0, 1.0)
    return Scene(key, title, description, width, top, tuple(layers), place)


def lowered(item: Item, by: float) -> Item:
    """A thing drawn further down.

    Args:
        item: What is drawn.
        by: How far down [mm].
    """
    if isinstance(item, Text):
        return replace(item, y=item.y + by)
    return Drawn(tuple(_lower(path, by) for path in item.paths), item.pen, item.fill)


def _lower(path: Path, by: float) -> Path:
    steps = tuple(
        To(_down(step.end, by)) if isinstance(step, To) else replace(step, end=_down(step.end, by))
        for step in path.steps
    )
    return Path(_down(path.start, by), steps, path.closed)


def _down(spot: Spot, by: float) -> Spot:
    return Spot(spot.x, spot.y + by)
