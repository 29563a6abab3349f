"""The shape of the network: how far each of its layers looks to the left and to the right."""

# (left offset of the first matrix, right offset of the second), in frames of 10 ms before the subsampling by three and
# of 30 ms after it.
BEFORE_SUBSAMPLING = [(1, 1), (1, 1), (1, 1)]
AFTER_SUBSAMPLING = [(0, 0), (1, 1), (2, 1), (3, 1), (4, 1)]
SUBSAMPLING = 3

WIDTH = 768
BOTTLENECK = 64
FEATURES = 40
# Share of a layer's input that goes around it.
BYPASS = 0.66


def offsets_in_frames():
    """(left, right) of each factored layer in frames of 10 ms."""
    after = [(left * SUBSAMPLING, right * SUBSAMPLING) for left, right in AFTER_SUBSAMPLING]
    return BEFORE_SUBSAMPLING + after


def context():
    """Frames of 10 ms that one output looks back and ahead; the first layer adds one to each side."""
    offsets = offsets_in_frames()
    return 1 + sum(left for left, _ in offsets), 1 + sum(right for _, right in offsets)
