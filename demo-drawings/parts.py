"""Parts of a figure that share its outline exactly, so that no sliver of a colour is left between two of them."""

from curves import lines, smooth


def part(path, i, j, back=(), bend=True):
    """The part of a closed path from vertex i on to vertex j (past the seam if need be), closed from j to i
    through the points `back`, smoothly or (bend = False) by straight lines."""
    n = len(path.segs)
    edge = path.sub(i, j) if i < j else path.sub(i, n).joined(path.sub(0, j)) if j else path.sub(i, n)
    chord = smooth([edge.end, *back, edge.start]) if back and bend else lines([edge.end, *back, edge.start])
    whole = edge.joined(chord)
    whole.closed = True
    return whole
