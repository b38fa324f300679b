"""Writes python-writer.svg (svgwrite) and plotting-library.svg (matplotlib): see README.md."""

import pathlib

HERE = pathlib.Path(__file__).resolve().parent
W, H, SUN = 120, 90, (60, 30, 9)
SKY, HILL, GOLD = "#9cc3d5", "#6f8f4e", "#f0b93a"
ACROSS = [((0, 30), (51, 30)), ((69, 30), (120, 30)), ((0, 60), (120, 60))]
DOWN = [((30, 0), (30, 90)), ((60, 0), (60, 21)), ((60, 39), (60, 90)), ((90, 0), (90, 90))]
RIDGE = [(0, 72), (25, 52), (48, 66), (80, 48), (120, 70)]


def python_writer():
    import svgwrite
    d = svgwrite.Drawing(str(HERE / "python-writer.svg"), size=(f"{W}mm", f"{H}mm"), viewBox=f"0 0 {W} {H}", profile="full", debug=False)
    page = d.add(d.g(id="page"))
    paint = page.add(d.g(id="layer-a"))
    paint.add(d.rect((0, 0), (W, H), fill=SKY))
    paint.add(d.polygon([*RIDGE, (W, H), (0, H)], fill=HILL))
    paint.add(d.circle(SUN[:2], SUN[2], fill=GOLD))
    lines = page.add(d.g(id="layer-b", fill="none", stroke="rgb(200,30,30)", stroke_width=0.1))
    lines.add(d.rect((0, 0), (W, H)))
    for a, b in ACROSS:
        lines.add(d.line(a, b))
    column = d.defs.add(d.line((0, 0), (0, 90), id="column"))
    for a, b in DOWN:
        if b[1] - a[1] == 90:
            lines.add(d.use(column, insert=a))
        else:
            lines.add(d.line(a, b))
    whole = page.add(d.g(id="layer-c", fill="none", stroke="rgb(200,30,30)", stroke_width=0.1))
    whole.add(d.circle(SUN[:2], SUN[2]))
    light = page.add(d.g(id="layer-d", style="fill:none;stroke:navy;stroke-width:.1"))
    # A stand-in for readers without the extension: what is drawn is the second child.
    from svgwrite.base import BaseElement

    class Switch(BaseElement):
        elementname = "switch"

    class Foreign(BaseElement):
        elementname = "foreignObject"

    choice = light.add(Switch(debug=False))
    foreign = choice.add(Foreign(debug=False))
    foreign.attribs["requiredExtensions"] = "http://example.org/rich-lines"
    choice.add(d.polyline(RIDGE))
    page.add(d.text("first proof", insert=(4, 88), font_size=4))
    d.save(pretty=True)


def plotting_library():
    import matplotlib
    matplotlib.use("svg")
    matplotlib.rcParams["svg.hashsalt"] = "tern"
    from matplotlib import pyplot
    from matplotlib.patches import Circle, Polygon, Rectangle
    figure = pyplot.figure(figsize=(W / 25.4, H / 25.4))
    axes = figure.add_axes([0, 0, 1, 1])
    axes.set_xlim(0, W)
    axes.set_ylim(H, 0)
    axes.axis("off")
    for patch in (Rectangle((0, 0), W, H), Polygon([*RIDGE, (W, H), (0, H)]), Circle(SUN[:2], SUN[2])):
        patch.set_edgecolor("none")
        axes.add_patch(patch)
    for patch, fill in zip(axes.patches, (SKY, HILL, GOLD)):
        patch.set_facecolor(fill)
    for a, b in ACROSS + DOWN:
        axes.plot([a[0], b[0]], [a[1], b[1]], color="#d62728", linewidth=0.3, clip_on=False)
    axes.add_patch(Rectangle((0, 0), W, H, fill=False, edgecolor="#d62728", linewidth=0.3, clip_on=False))
    axes.add_patch(Circle(SUN[:2], SUN[2], fill=False, edgecolor="#2ca02c", linewidth=0.3))
    axes.plot([p[0] for p in RIDGE], [p[1] for p in RIDGE], color="#1f77b4", linewidth=0.3)
    figure.savefig(HERE / "plotting-library.svg", metadata={"Date": None, "Creator": None})


python_writer()
plotting_library()
