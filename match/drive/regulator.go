package drive

// dropPoint is the drop a linear regulator needs over its output, in V, at a
// current in A. [Dropout]
type dropPoint struct{ current, volts float64 }

var (
	commonDrop = [2]dropPoint{{0.3, 1.75}, {1, 2.0}}
	lowDrop    = [2]dropPoint{{0.3, 0.2}, {1, 0.5}}
)

// mostLinear is the rated current in A up to which a linear regulator is offered:
// the drop was read up to 1 A, and a fan above it makes much heat.
const mostLinear = 1.0

// dropAt returns the drop at a current: that at 0.3 A below it, straight lines
// above.
func dropAt(points [2]dropPoint, current float64) float64 {
	a, b := points[0], points[1]
	if current <= a.current {
		return a.volts
	}
	return a.volts + (b.volts-a.volts)*(current-a.current)/(b.current-a.current)
}

// RegulatorPlan returns the plan with a linear regulator, a common one or one of
// low drop:
//
//	heat = (V_supply,max − V_fan)·I
//
// at the rated current I, which a fan on less voltage stays below. It needs its
// drop at V_supply,min: 1.75 V up to 0.3 A and 2 V at 1 A, or 0.2 and 0.5 V
// [Dropout]. While the fan starts the drop is that of twice the current.
func RegulatorPlan(l Load, rail Rail, volts float64, low bool) (Plan, *Refusal) {
	if r := Check(l, rail, volts); r != nil {
		return Plan{}, r
	}
	means, points := Regulator, commonDrop
	if low {
		means, points = LowDropRegulator, lowDrop
	}
	i := l.RatedCurrent
	if i > mostLinear {
		return Plan{}, refuse(TooMuchCurrent, "the fan draws %.3g A: a %s is offered up to %g A; take a buck converter", i, means, mostLinear)
	}
	if most := rail.Low - dropAt(points, i); most < volts {
		return Plan{}, refuse(NoHeadRoom, "a %s on %.3g V gives at most %.3g V, and %.3g V are wanted", means, rail.Low, max(most, 0), volts)
	}
	heat := (rail.High - volts) * i
	p := Plan{
		Means: means, Volts: Range{volts, volts}, Heat: heat,
		StartVolts: min(volts, rail.Low-dropAt(points, startTimes*i)),
	}
	return p.finish(l, heat), nil
}
