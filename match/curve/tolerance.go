package curve

// FlowTolerance is half the width of the 10–90 % range of a fan's flow at the
// speed of its curve, along any system, as a share of the flow a full published
// curve gives there: ±10 % (common practice). The ends of a two-ended curve are
// published points and no better: it applies to that curve too, beside the
// spread of its shape, see [Shapes.At].
const FlowTolerance = 0.10

// SpeedTolerance is the outer limit of a fan's speed at rated voltage around its
// rated speed, as a share of that: ±10 % (common practice, a few sheets allow
// more). It is no 10–90 % range: speeds spread evenly between the limits have
// one of ±8 %. A measured speed leaves none of it. FlowTolerance does not
// contain it, since that is stated at the speed of the curve.
const SpeedTolerance = 0.10
