package match

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"lowsone/catalog"
	"lowsone/match/air"
	"lowsone/match/curve"
	"lowsone/match/drive"
	"lowsone/match/resistance"
)

// FittedError says why the fitted fan cannot stand for the device. Hint names
// what to give.
type FittedError struct{ Reason, Hint string }

// Error gives the reason.
func (e *FittedError) Error() string { return "the fitted fan: " + e.Reason }

// EstimateSystem estimates the device's resistance from the fitted fan and the
// way given. The catalogue serves where an end of the fitted fan's curve has to
// be estimated from similar fans; noEstimates forbids that.
//
// Errors are *FittedError, or those of the way in package resistance; a
// *resistance.ContradictionError holds both numbers and the usual causes.
func EstimateSystem(ctx context.Context, fans catalog.Fans, path Path, noEstimates bool) (System, Baseline, error) {
	d, err := know(ctx, fans, path, noEstimates)
	if err != nil {
		return System{}, Baseline{}, err
	}
	return d.system, d.baseline(0), nil
}

// known is a device with its fitted fan rated and its resistance estimated.
type known struct {
	path    Path
	ground  footing // of the catalogue
	fitted  rated
	hasAir  bool // the fitted fan has a curve
	noLevel bool // no level is known of it
	system  System

	otherWays []Way // that gave an estimate beside path.Way
}

func know(ctx context.Context, fans catalog.Fans, path Path, noEstimates bool) (*known, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	path = path.completed()
	d := &known{path: path, ground: footing{source: fans, mains: orNaN(path.Seat.Mains), supply: path.Seat.Supply.Or(0), fans: path.Fans, series: path.Series}}
	if !noEstimates {
		d.ground.similar = &similarFans{fans: fans}
	}
	if err := d.rateFitted(ctx); err != nil {
		return nil, err
	}
	ratio, given, err := d.speedNow()
	if err != nil {
		return nil, err
	}
	standing := curve.Curve{}
	if d.hasAir {
		standing = d.fitted.curve.AtSpeed(ratio)
	}
	if err := d.estimate(standing); err != nil {
		return nil, err
	}
	d.system.Given, d.system.Ratio, d.system.Estimated = given, ratio, d.fitted.estimated.list()
	d.system.Density = d.system.Estimate.Density
	if d.system.Density == 0 {
		d.system.Density = air.StandardDensity
	}
	d.warn()
	return d, nil
}

// estimate follows every way that was recorded and takes the most trusted one.
// A way that contradicts itself is an error where it is the only one, else a
// warning.
func (d *known) estimate(standing curve.Curve) error {
	ways := d.path.Ways
	if len(ways) == 0 {
		ways = []Way{d.path.Way}
	}
	var all []resistance.Estimate
	var kept []Way
	var failed []error
	for _, way := range ways {
		est, err := way.estimate(standing)
		if err != nil {
			failed = append(failed, fmt.Errorf("by %s: %w", way.Method, err))
			continue
		}
		all, kept = append(all, est), append(kept, way)
	}
	if len(all) == 0 {
		if len(failed) == 1 {
			return errors.Unwrap(failed[0])
		}
		return errors.Join(failed...)
	}
	best, err := resistance.Compare(all...)
	if err != nil {
		return err
	}
	d.path.Way = kept[best.Best]
	d.otherWays = slices.Delete(kept, best.Best, best.Best+1)
	d.system = System{Estimate: all[best.Best], Apart: best.Pairs, Warnings: best.Warnings}
	d.system.Others = slices.Delete(all, best.Best, best.Best+1)
	for _, err := range failed {
		d.system.Warnings = append(d.system.Warnings, err.Error())
	}
	return nil
}

// rateFitted rates the fitted fan. It may lack a level; it may lack a curve
// only where the resistance was measured point by point.
func (d *known) rateFitted(ctx context.Context) error {
	own := d.ground.on(catalog.ColumnsOf(d.path.Fitted))
	if err := own.prepare(ctx, 0); err != nil {
		return err
	}
	why := own.rate(0, &d.fitted)
	r := &d.fitted
	d.hasAir = r.curve.Len() > 0
	d.noLevel = math.IsNaN(r.level) || why == lackLevel || why == lackEstimates
	byPoints := slices.ContainsFunc(append(d.path.Ways, d.path.Way), func(w Way) bool { return w.Method == resistance.ByPoints })
	if d.hasAir || byPoints {
		return nil
	}
	return &FittedError{string(why), "say what its label says, for example --fitted airflow_m3h=40 --fitted static_pressure_pa=60, or give its curve"}
}

// speedNow gives the speed ratio the fitted fan had while measured: as given,
// else as its supply lets it turn.
func (d *known) speedNow() (ratio float64, given bool, err error) {
	if turns, ok := d.path.SpeedNow.Turns.Get(); ok {
		if math.IsNaN(d.fitted.turns) {
			return 0, false, &FittedError{"its rated speed is not known, so a measured speed says nothing", "add --fitted speed_rpm=…, or give the speed as a share, such as 75%"}
		}
		ratio, given = float64(turns)/d.fitted.turns, true
	} else if share, ok := d.path.SpeedNow.Ratio.Get(); ok {
		ratio, given = share, true
	} else {
		if err = d.offMains(); err != nil {
			return 0, false, err
		}
		ratio, err = atSupply(&d.fitted, orNaN(d.path.Seat.Voltage))
		given = ratio != 1
		if err != nil {
			return 0, false, &FittedError{err.Error(), "give the speed it had with --replace-speed"}
		}
	}
	if ratio < leastRatio || ratio > mostRatio {
		return 0, false, &FittedError{fmt.Sprintf("a speed of %s %% of its label is not believable", Plain(100*ratio)),
			fmt.Sprintf("between %v and %v %% is; check the rated speed and the pulses per turn the speed was counted with", 100*leastRatio, 100*mostRatio)}
	}
	return ratio, given, nil
}

// offMains says that an AC fan runs off the voltage or the frequency of its
// label, so that its speed is not known.
func (d *known) offMains() error {
	if d.fitted.supply != catalog.AC {
		return nil
	}
	own := catalog.ColumnsOf(d.path.Fitted)
	if hz := own.Number(catalog.FieldFrequency, 0); otherMains(hz, d.ground.mains) {
		return &FittedError{fmt.Sprintf("its label is for %s Hz, the device gives %s Hz: how fast it turns there is not known", Plain(hz), Plain(d.ground.mains)),
			"measure its speed: --replace-speed"}
	}
	volts := orNaN(d.path.Seat.Voltage)
	if math.IsNaN(volts) || own.Takes(0, volts, toleranceAC) != catalog.Fail {
		return nil
	}
	return &FittedError{fmt.Sprintf("an AC fan of %s V on %s V: how fast it turns there is not known", Plain(d.fitted.nominal), Plain(volts)),
		"measure its speed: --replace-speed"}
}

// Speed ratios of a fitted fan that are believed: below, the laws hold no
// longer; above, the label or the count is wrong (common practice).
const (
	leastRatio = 0.15
	mostRatio  = 1.4
)

// atSupply gives the speed ratio of a fan at the device's supply: DC away from
// its nominal voltage by the measured law, everything else 1.
func atSupply(r *rated, volts float64) (float64, error) {
	if r.supply != catalog.DC || math.IsNaN(volts) || math.IsNaN(r.nominal) || volts == r.nominal {
		return 1, nil
	}
	return drive.SpeedAtVoltage(volts / r.nominal)
}

// estimate follows the one way that was given. The curve is the fitted fan's
// at its speed, in standard air.
func (w Way) estimate(c curve.Curve) (resistance.Estimate, error) {
	switch w.Method {
	case resistance.ByFlow:
		return resistance.Flow(c, float64(w.Flow))
	case resistance.ByPressure:
		return resistance.Pressure(c, float64(w.Pressure))
	case resistance.ByHeat:
		return resistance.Heat(c, w.Heat.input())
	case resistance.ByPoints:
		var q, p []float64
		for _, point := range w.Points {
			q, p = append(q, float64(point.Flow)), append(p, float64(point.Pressure))
		}
		return resistance.Points(c, q, p)
	case resistance.ByShare:
		return resistance.Share(c, w.Share)
	case resistance.ByGeometry:
		return resistance.Geometry(c, resistance.StandardAir(), w.Geometry)
	}
	return resistance.Estimate{}, fmt.Errorf("no way to the device's resistance was given")
}

func (h Heat) input() resistance.HeatInput {
	in := resistance.HeatInput{Power: float64(h.Power), AirRise: float64(h.AirRise)}
	if t, ok := h.Inlet.Get(); ok {
		in.InletC, in.InletKnown = t.Celsius(), true
	}
	if h.Outlet {
		in.FanAt = resistance.Outlet
	}
	return in
}

// warn collects what has to be said beside the estimate.
func (d *known) warn() {
	s := &d.system
	s.Warnings = append(s.Warnings, s.Estimate.Warnings...)
	if !s.Given && d.hasAir {
		s.Warnings = append(s.Warnings, "the fitted fan's speed was not measured: its label speed is assumed, it may be down to 85 % of it")
	}
	if s.Given && s.Ratio > 1.1 {
		s.Warnings = append(s.Warnings, fmt.Sprintf("the fitted fan turned %s %% above its label: check the label, the supply and the pulses per turn", Plain(100*(s.Ratio-1))))
	}
}

// baseline is the fitted fan as it runs now, its level offset dB from that at
// 1 m.
func (d *known) baseline(offset float64) Baseline {
	b := Baseline{Loud: silent(), Tone: Tone{Hz: math.NaN(), Beat: math.NaN(), Apart: math.NaN(), Distinct: math.NaN()}, Fan: d.path.Fitted, Ratio: d.system.Ratio, Q: d.system.Q, P: d.system.P, Estimated: d.system.Estimated}
	if d.system.Located && d.hasAir && !d.noLevel {
		b.Level = d.fitted.levelAt(d.system.Ratio, d.system.Q/d.system.Ratio, d.system.Density, offset)
		b.HasLevel = true
	}
	return b
}
