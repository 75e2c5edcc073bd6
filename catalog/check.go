package catalog

import (
	"fmt"
	"math"

	"lowsone/catalog/quantity"
)

// Problem is what is wrong with a record as a whole.
type Problem struct {
	Field  FieldID   // where it shows
	Beside []FieldID // the other values that Field is held against
	Reason string    // with the values
	Plain  string    // the same without them, so that equal ones can be counted
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
	add := func(p Problem) { found = append(found, p) }
	checkVoltages(f, add)
	checkCurve(f, add)
	checkPower(f, add)
	return found
}

func checkVoltages(f *Fan, add func(Problem)) {
	low, haveLow := f.VoltageMin.Get()
	high, haveHigh := f.VoltageMax.Get()
	nominal, have := f.Voltage.Get()
	if haveLow && haveHigh && low > high {
		add(Problem{
			Field: FieldVoltageMin, Beside: []FieldID{FieldVoltageMax}, Fatal: true, Hint: "exchange the two",
			Plain:  "lowest voltage above the highest",
			Reason: fmt.Sprintf("lowest voltage %s V is above the highest, %s V", Number(float64(low)), Number(float64(high))),
		})
		return
	}
	if have && (haveLow && nominal < low || haveHigh && nominal > high) {
		add(Problem{
			Field: FieldVoltage, Beside: []FieldID{FieldVoltageMin, FieldVoltageMax},
			Plain:  "nominal voltage outside its own range",
			Reason: fmt.Sprintf("nominal voltage %s V lies outside its own range", Number(float64(nominal))),
		})
	}
	if start, ok := f.StartVoltage.Get(); ok && have && start > nominal {
		add(Problem{
			Field: FieldStartVoltage, Beside: []FieldID{FieldVoltage},
			Plain:  "starts only above the nominal voltage",
			Reason: fmt.Sprintf("starts only at %s V, above its nominal %s V", Number(float64(start)), Number(float64(nominal))),
		})
	}
}

func checkCurve(f *Fan, add func(Problem)) {
	if len(f.Curve) == 0 {
		return
	}
	if reason := curveFault(f.Curve); reason != "" {
		add(Problem{Field: FieldCurve, Fatal: true, Reason: reason, Plain: reason})
		return
	}
	first, last := f.Curve[0], f.Curve[len(f.Curve)-1]
	if q, ok := f.Airflow.Get(); ok && last.Pressure == 0 && apart(float64(q), float64(last.Flow)) {
		add(Problem{
			Field: FieldAirflow, Beside: []FieldID{FieldCurve}, Hint: "the curve is used",
			Plain: "free airflow more than 3 % from the curve's end",
			Reason: fmt.Sprintf("free airflow %s m³/h is more than 3 %% from the curve's end, %s m³/h",
				Number(float64(q/quantity.CubicMetrePerHour)), Number(float64(last.Flow/quantity.CubicMetrePerHour))),
		})
	}
	if p, ok := f.StaticPressure.Get(); ok && first.Flow == 0 && apart(float64(p), float64(first.Pressure)) {
		add(Problem{
			Field: FieldStaticPressure, Beside: []FieldID{FieldCurve}, Hint: "the curve is used",
			Plain: "static pressure more than 3 % from the curve's end",
			Reason: fmt.Sprintf("static pressure %s Pa is more than 3 %% from the curve's end, %s Pa",
				Number(float64(p)), Number(float64(first.Pressure))),
		})
	}
}

// checkPower compares the air power a curve can give at most with the electric
// power. No small fan turns all its input into air power. Which of the values is
// wrong does not show: all are named.
func checkPower(f *Fan, add func(Problem)) {
	air, okAir := AirPower(f)
	w, okW := electricPower(f)
	if !okAir || !okW || air <= w {
		return
	}
	p := Problem{
		Field: FieldPower, Beside: []FieldID{FieldAirflow, FieldStaticPressure},
		Plain:  "less power than the air that is moved takes",
		Reason: fmt.Sprintf("moves %s W of air on %s W of power", Number(round(air, 3)), Number(round(w, 3))),
		Hint:   "check the units of airflow, pressure and power",
	}
	if !f.Power.Known() {
		p.Field, p.Beside, p.Hint = FieldCurrent, append(p.Beside, FieldVoltage), "check the units of airflow, pressure, voltage and current"
	}
	add(p)
}

// AirPower gives the most power in W that a fan with a straight curve from its
// shut-off pressure to its free delivery puts into the air: a quarter of their
// product, Q·p/4. ok is false where one of the two is unknown.
func AirPower(f *Fan) (watts float64, ok bool) {
	q, okQ := f.Airflow.Get()
	p, okP := f.StaticPressure.Get()
	return float64(q) * float64(p) / 4, okQ && okP
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
