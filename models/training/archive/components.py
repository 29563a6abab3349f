"""Components of a Kaldi nnet3 network in their binary form. Source: Kaldi's src/nnet3, the Write functions."""

from kaldi_binary import boolean, float32, float64, int32, int_vector, matrix, token, vector

EPSILON = 1e-3


def component(name, body):
    return token("<ComponentName>") + token(name) + body


def affine(weight, bias=None):
    """All of it is fixed: nothing is trained here any more."""
    return (
        token("<FixedAffineComponent>")
        + token("<LinearParams>")
        + matrix(weight)
        + token("<BiasParams>")
        + vector(bias.values if bias else [0.0] * weight.shape[0])
        + token("</FixedAffineComponent>")
    )


def tdnn(offsets, weight, bias=None):
    """A matrix over frames at `offsets`. What is only for training stands at what Kaldi writes by default."""
    return (
        token("<TdnnComponent>")
        + token("<LearningRate>") + float32(0.001)
        + token("<TimeOffsets>") + int_vector(offsets)
        + token("<LinearParams>") + matrix(weight)
        + token("<BiasParams>") + vector(bias.values if bias else [])
        + token("<OrthonormalConstraint>") + float32(0.0)
        + token("<UseNaturalGradient>") + boolean(False)
        + token("<NumSamplesHistory>") + float32(2000.0)
        + token("<AlphaInOut>") + float32(4.0) + float32(4.0)
        + token("<RankInOut>") + int32(20) + int32(80)
        + token("</TdnnComponent>")
    )


def nonlinear(kind, dim):
    """`RectifiedLinearComponent` or `LogSoftmaxComponent`, without statistics."""
    return (
        token(f"<{kind}>")
        + token("<Dim>") + int32(dim)
        + token("<ValueAvg>") + vector([])
        + token("<DerivAvg>") + vector([])
        + token("<Count>") + float64(0)
        + token("<OderivRms>") + vector([])
        + token("<OderivCount>") + float64(0)
        + token("<NumDimsSelfRepaired>") + float64(0)
        + token("<NumDimsProcessed>") + float64(0)
        + token(f"</{kind}>")
    )


def batch_norm(mean, variance):
    dim = mean.shape[0]
    return (
        token("<BatchNormComponent>")
        + token("<Dim>") + int32(dim)
        + token("<BlockDim>") + int32(dim)
        + token("<Epsilon>") + float32(EPSILON)
        + token("<TargetRms>") + float32(1.0)
        + token("<TestMode>") + boolean(False)
        + token("<Count>") + float64(10000.0)
        + token("<StatsMean>") + vector(mean.values)
        + token("<StatsVar>") + vector(variance.values)
        + token("</BatchNormComponent>")
    )


def no_op(dim):
    return (
        token("<NoOpComponent>")
        + token("<Dim>") + int32(dim)
        + token("<BackpropScale>") + float32(1.0)
        + token("</NoOpComponent>")
    )
