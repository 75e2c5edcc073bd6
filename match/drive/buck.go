package drive

// BuckEfficiency is that of a small step-down converter at half load or more
// (common practice: 85 to 95 %).
const BuckEfficiency = 0.90

// buckRoom is what a step-down converter needs over its output, in V (common
// practice).
const buckRoom = 1.0

// BuckPlan returns the plan with a step-down converter of an efficiency η between
// 0 and 1:
//
//	heat = V_fan·I·(1/η − 1)
//
// at the rated current I.
func BuckPlan(l Load, rail Rail, volts, efficiency float64) (Plan, *Refusal) {
	if r := Check(l, rail, volts); r != nil {
		return Plan{}, r
	}
	if !(efficiency > 0 && efficiency < 1) {
		return Plan{}, refuse(Missing, "the efficiency of the converter is given as %.3g: it must be between 0 and 1", efficiency)
	}
	if rail.Low < volts+buckRoom {
		return Plan{}, refuse(NoHeadRoom, "a buck converter on %.3g V gives at most about %.3g V, and %.3g V are wanted", rail.Low, max(rail.Low-buckRoom, 0), volts)
	}
	heat := volts * l.RatedCurrent * (1/efficiency - 1)
	p := Plan{Means: BuckConverter, Volts: Range{volts, volts}, Heat: heat, StartVolts: volts}
	return p.finish(l, heat), nil
}
