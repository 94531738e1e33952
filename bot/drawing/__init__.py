"""Pictures of a site: a plant in section and from above, pegs, strings, works, gas. Loaded only where one is drawn."""

from bot.drawing import gas, gauge, pegs, progress, section, top

PICTURES = {
    "section": section.picture,
    "plan": top.picture,
    "pegs": pegs.picture,
    "string": gauge.picture,
    "progress": progress.picture,
    "gas": gas.picture,
}


def draw(what, site, reader, now, path):
    """Write one picture of a site as a PNG file; reader, site and moment as for its texts."""
    PICTURES[what](site, reader, now).save(path)
