package catalog

import (
	"fmt"
	"math"

	"lowsone/catalog/quantity"
)

// Problem is what is wrong with a record as a whole.
type Problem struct {
	Field  FieldID // where it shows
	Reason string
	Hint   string
	Fatal  bool // no fan is like this: the row is rejected; else a warning
}

// tolerance of two statements of one value: 3 % (common practice, rounding of
// two units on one label).
const twoStatements = 0.03

// Check looks for values that cannot all be true of one fan. Single values
// have their bounds in Field.Bound.
func Check(f *Fan) []Problem {
	var found []Problem
	add := func(id FieldID, fatal bool, hint, format string, args ...any) {
		found = append(found, Problem{id, fmt.Sprintf(format, args...), hint, fatal})
	}
	checkVoltages(f, add)
	checkCurve(f, add)
	checkPower(f, add)
	return found
}

type adder func(id FieldID, fatal bool, hint, format string, args ...any)

func checkVoltages(f *Fan, add adder) {
	low, haveLow := f.VoltageMin.Get()
	high, haveHigh := f.VoltageMax.Get()
	nominal, have := f.Voltage.Get()
	if haveLow && haveHigh && low > high {
		add(FieldVoltageMin, true, "exchange the two", "lowest voltage %s V is above the highest, %s V", Number(float64(low)), Number(float64(high)))
		return
	}
	if have && (haveLow && nominal < low || haveHigh && nominal > high) {
		add(FieldVoltage, false, "", "nominal voltage %s V lies outside its own range", Number(float64(nominal)))
	}
	if start, ok := f.StartVoltage.Get(); ok && have && start > nominal {
		add(FieldStartVoltage, false, "", "starts only at %s V, above its nominal %s V", Number(float64(start)), Number(float64(nominal)))
	}
}

func checkCurve(f *Fan, add adder) {
	if len(f.Curve) == 0 {
		return
	}
	if reason := curveFault(f.Curve); reason != "" {
		add(FieldCurve, true, "", "%s", reason)
		return
	}
	first, last := f.Curve[0], f.Curve[len(f.Curve)-1]
	if q, ok := f.Airflow.Get(); ok && last.Pressure == 0 && apart(float64(q), float64(last.Flow)) {
		add(FieldAirflow, false, "the curve is used", "free airflow %s m³/h is more than 3 %% from the curve's end, %s m³/h",
			Number(float64(q/quantity.CubicMetrePerHour)), Number(float64(last.Flow/quantity.CubicMetrePerHour)))
	}
	if p, ok := f.StaticPressure.Get(); ok && first.Flow == 0 && apart(float64(p), float64(first.Pressure)) {
		add(FieldStaticPressure, false, "the curve is used", "static pressure %s Pa is more than 3 %% from the curve's end, %s Pa",
			Number(float64(p)), Number(float64(first.Pressure)))
	}
}

// checkPower compares the air power a curve can give at most with the electric
// power. A quarter of shut-off pressure times free delivery is the peak of a
// straight curve; no small fan turns all its input into air power.
func checkPower(f *Fan, add adder) {
	q, okQ := f.Airflow.Get()
	p, okP := f.StaticPressure.Get()
	w, okW := electricPower(f)
	if !okQ || !okP || !okW {
		return
	}
	if air := float64(q) * float64(p) / 4; air > w {
		add(FieldStaticPressure, false, "check the units of airflow, pressure and power",
			"moves %s W of air on %s W of power", Number(round(air, 3)), Number(round(w, 3)))
	}
}

func electricPower(f *Fan) (float64, bool) {
	if w, ok := f.Power.Get(); ok {
		return float64(w), true
	}
	v, okV := f.Voltage.Get()
	i, okI := f.Current.Get()
	return float64(v) * float64(i), okV && okI
}

func apart(a, b float64) bool { return math.Abs(a-b) > twoStatements*math.Max(a, b) }

// round gives v with n significant digits.
func round(v float64, n int) float64 {
	if v == 0 {
		return 0
	}
	scale := math.Pow(10, float64(n)-math.Ceil(math.Log10(math.Abs(v))))
	return math.Round(v*scale) / scale
}

// FillFromCurve sets free airflow and static pressure from the ends of the
// curve where no cell states them: the last point at no pressure, the first at
// no flow.
func (f *Fan) FillFromCurve() {
	if len(f.Curve) == 0 {
		return
	}
	first, last := f.Curve[0], f.Curve[len(f.Curve)-1]
	if !f.Airflow.Known() && last.Pressure == 0 {
		f.Airflow = quantity.Stated(last.Flow)
	}
	if !f.StaticPressure.Known() && first.Flow == 0 {
		f.StaticPressure = quantity.Stated(first.Pressure)
	}
}
