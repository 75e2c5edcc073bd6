package curve

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"gonum.org/v1/gonum/interp"

	"lowsone/match/air"
)

// rows are fans of ten points each, flat like a catalogue's columns.
type rows struct {
	*Rows
	q, p    []float64
	devices []System // a pass has one of them: no branch can be learnt by heart
	need    float64
	rival   []interp.PiecewiseLinear // the same curves, fitted before the clock runs
}

const (
	pointsAFan     = 10
	fansInBench    = 4096
	devicesInBench = 64
)

// benchRows draws falling curves of the size of small fans, the same each time.
func benchRows(b testing.TB) rows {
	b.Helper()
	random := rand.New(rand.NewPCG(1, 2))
	r := rows{need: 0.004}
	for range devicesInBench {
		r.devices = append(r.devices, System{A: 1000 * random.Float64(), B: 1e5 + 2e5*random.Float64()})
	}
	var end []uint32
	for range fansInBench {
		q0, p0 := 0.008+0.02*random.Float64(), 20+80*random.Float64()
		for i := range pointsAFan {
			x := float64(i) / (pointsAFan - 1)
			r.q = append(r.q, q0*x)
			r.p = append(r.p, p0*(1-x)*(1-0.3*x*random.Float64()))
		}
		var line interp.PiecewiseLinear
		k := len(r.q) - pointsAFan
		if err := line.Fit(r.q[k:], r.p[k:]); err != nil {
			b.Fatal(err)
		}
		r.rival = append(r.rival, line)
		end = append(end, uint32(len(r.q)))
	}
	r.Rows = NewRows(end, r.q, r.p)
	return r
}

// end returns the last flow of fan i.
func (r *rows) end(i int) float64 { return r.q[(i+1)*pointsAFan-1] }

// bisected is the rival's answer: the flow at which f changes sign, to about
// 1e-12 of the range.
func bisected(low, high float64, f func(x float64) float64) float64 {
	for range 40 {
		mid := (low + high) / 2
		if f(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// against runs ours over all rows, pass after pass with another device each, and
// the rival's a few times over a part of them, and reports rows per second and
// their ratio, each by its median pass: what else the machine does then falls on
// other passes. Only ours counts for allocations.
func against(b *testing.B, ours func(s System) float64, rival func(s System, i int) float64) {
	r := benchRows(b)
	const part = fansInBench / 16
	mine, theirs := make([]time.Duration, 0, 1<<16), make([]time.Duration, 0, 16)
	sum := 0.0
	b.ReportAllocs()
	for pass := 0; b.Loop(); pass++ {
		start := time.Now()
		sum += ours(r.devices[pass%devicesInBench])
		if len(mine) < cap(mine) {
			mine = append(mine, time.Since(start))
		}
	}
	for pass := range cap(theirs) {
		start := time.Now()
		for i := range part {
			sum -= rival(r.devices[pass], pass*part+i)
		}
		theirs = append(theirs, time.Since(start))
	}
	fast, slow := perSecond(fansInBench, mine), perSecond(part, theirs)
	b.ReportMetric(fast, "rows/s")
	b.ReportMetric(1e9/fast, "ns/row")
	b.ReportMetric(slow, "rival-rows/s")
	b.ReportMetric(fast/slow, "times-rival")
	if sum == 0.5 { // keeps the sum alive
		b.Log(sum)
	}
}

// perSecond returns the rate of the median pass.
func perSecond(rows int, passes []time.Duration) float64 {
	slices.Sort(passes)
	return float64(rows) / passes[len(passes)/2].Seconds()
}

// BenchmarkOperate10Points finds working points of fans of ten points; rival:
// piecewise linear interpolation and bisection.
func BenchmarkOperate10Points(b *testing.B) {
	r := benchRows(b)
	against(b,
		func(s System) (sum float64) {
			for i := range fansInBench {
				x, _, _ := Operate(r.Curve(i), s)
				sum += x.Q
			}
			return sum
		},
		func(s System, i int) float64 {
			line := &r.rival[i]
			return bisected(0, r.end(i), func(q float64) float64 { return line.Predict(q) - s.Loss(q) })
		})
}

// BenchmarkSpeedFor10Points finds the speeds for one needed flow.
func BenchmarkSpeedFor10Points(b *testing.B) {
	r := benchRows(b)
	against(b,
		func(s System) (sum float64) {
			for i := range fansInBench {
				m, _, _ := SpeedFor(r.Curve(i), s, r.need)
				sum += m.Ratio
			}
			return sum
		},
		func(s System, i int) float64 {
			line, k := &r.rival[i], s.Loss(r.need)/(r.need*r.need)
			return r.need / bisected(0, r.end(i), func(x float64) float64 { return line.Predict(x) - k*x*x })
		})
}

// twoEnded are fans of which only the ends are known, those of rows, in thinner
// air and at less than full speed.
type twoEnded struct {
	rows
	shapes [2]*Shape
	lines  [2]interp.PiecewiseLinear // the rival's
}

const (
	thinAir = 1.1 // kg/m³
	slowed  = 0.97
)

func benchTwoEnded(b testing.TB) *twoEnded {
	t := &twoEnded{rows: benchRows(b), shapes: [...]*Shape{Axial().Mean, Centrifugal().Mean}}
	for i, s := range t.shapes {
		if err := t.lines[i].Fit(s.q, s.p); err != nil {
			b.Fatal(err)
		}
	}
	return t
}

// ends returns kind and ends of fan i.
func (t *twoEnded) ends(i int) (kind int, q0, p0 float64) {
	return i * 7 / 4 % 2, t.end(i), t.p[i*pointsAFan]
}

// ask is what a ranking asks of fan i: its curve in this air, the speed for the
// need, the point at full speed.
func (t *twoEnded) ask(s System, i int) (ratio, flow float64) {
	kind, q0, p0 := t.ends(i)
	c := TwoEnded(t.shapes[kind], q0, p0).AtDensity(thinAir)
	m, _, _ := SpeedFor(c, s, t.need)
	x, _, _ := Held(c, s, slowed)
	return m.Ratio, x.Q
}

// askRival is the same by the rival.
func (t *twoEnded) askRival(s System, i int) (ratio, flow float64) {
	kind, q0, p0 := t.ends(i)
	line, k := &t.lines[kind], s.Loss(t.need)/(t.need*t.need)
	p0 *= thinAir / air.StandardDensity
	x := bisected(0, q0, func(x float64) float64 { return p0*line.Predict(x/q0) - k*x*x })
	return t.need / x, bisected(0, slowed*q0, func(q float64) float64 {
		return slowed*slowed*p0*line.Predict(q/(slowed*q0)) - s.Loss(q)
	})
}

// BenchmarkTwoEnded asks fans of two ends.
func BenchmarkTwoEnded(b *testing.B) {
	t := benchTwoEnded(b)
	against(b,
		func(s System) (sum float64) {
			for i := range fansInBench {
				ratio, flow := t.ask(s, i)
				sum += ratio + flow
			}
			return sum
		},
		func(s System, i int) float64 {
			ratio, flow := t.askRival(s, i)
			return ratio + flow
		})
}

// The rival gets the same answers, so the comparison is fair; and neither
// question allocates.
func TestRivalAgreesAndNothingAllocates(t *testing.T) {
	two := benchTwoEnded(t)
	r := &two.rows
	for i := range 200 {
		c, line, s := r.Curve(i), &r.rival[i], r.devices[i%devicesInBench]
		k := s.Loss(r.need) / (r.need * r.need)
		end, _ := c.FreeDelivery()
		x, _, err := Operate(c, s)
		if err != nil {
			t.Fatal(err)
		}
		if want := bisected(0, end, func(q float64) float64 { return line.Predict(q) - s.Loss(q) }); !near(x.Q, want, 1e-9) {
			t.Errorf("fan %d: Operate = %g, rival %g", i, x.Q, want)
		}
		m, _, err := SpeedFor(c, s, r.need)
		if err != nil {
			t.Fatal(err)
		}
		if want := bisected(0, end, func(q float64) float64 { return line.Predict(q) - k*q*q }); !near(m.X, want, 1e-9) {
			t.Errorf("fan %d: SpeedFor = %g, rival %g", i, m.X, want)
		}
		ratio, flow := two.ask(s, i)
		if wantRatio, wantFlow := two.askRival(s, i); !near(ratio, wantRatio, 1e-9) || !near(flow, wantFlow, 1e-9) {
			t.Errorf("fan %d of two ends: ratio %g, flow %g, rival %g, %g", i, ratio, flow, wantRatio, wantFlow)
		}
	}
	kept, s := make([]Curve, 2), r.devices[0]
	n := testing.AllocsPerRun(100, func() {
		c := r.Curve(7).AtSpeed(0.9).AtDensity(1.1)
		kept[0] = c
		Operate(c, s)
		SpeedFor(c, s, r.need)
		Held(c, s, 0.8)
		Operate(View(r.q[:pointsAFan], r.p[:pointsAFan]), s)
		kept[1] = TwoEnded(Axial().Mean, 0.01, 50)
		kept[1].Stalled(0.005)
	})
	if n != 0 {
		t.Errorf("%g allocations, want none", n)
	}
}

// BenchmarkDrawShape is what a sample of a two-ended fan costs: its shape by
// share, then its working point.
func BenchmarkDrawShape(b *testing.B) {
	s, device := Axial(), System{A: 500, B: 2e5}
	random := rand.New(rand.NewPCG(3, 4))
	var shares [1024]float64
	for i := range shares {
		shares[i] = random.Float64()
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, _, err := Operate(TwoEnded(s.At(shares[i%len(shares)]), 0.02, 50), device); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFamily is what the start of a program pays for one family.
func BenchmarkFamily(b *testing.B) {
	curves := ofKind(publishedCurves(b), "axial")
	s := fitSpread(b, curves, Axial().Mean)
	for b.Loop() {
		familyOf(Axial().Mean, s)
	}
}
