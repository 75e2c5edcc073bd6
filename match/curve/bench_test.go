package curve

import (
	"math/rand/v2"
	"testing"
	"time"

	"gonum.org/v1/gonum/interp"
)

// rows are fans of ten points each, flat like a catalogue's columns.
type rows struct {
	q, p  []float64
	fans  int
	sys   System
	need  float64
	rival []interp.PiecewiseLinear // the same curves, fitted before the clock runs
}

const (
	pointsAFan  = 10
	fansInBench = 4096
)

// benchRows draws falling curves of the size of small fans, the same each time.
func benchRows(b testing.TB) rows {
	b.Helper()
	random := rand.New(rand.NewPCG(1, 2))
	r := rows{fans: fansInBench, sys: System{A: 500, B: 2e5}, need: 0.004}
	for range r.fans {
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
	}
	return r
}

// fan returns row i, a view.
func (r *rows) fan(i int) Curve {
	i = i % r.fans * pointsAFan
	return View(r.q[i:i+pointsAFan], r.p[i:i+pointsAFan])
}

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

// against runs ours and the rival's over as many rows each and reports rows per
// second and their ratio. Only ours counts for time and allocations.
func against(b *testing.B, ours, rival func(i int) float64) {
	b.ReportAllocs()
	n, sum := 0, 0.0
	start := time.Now()
	for b.Loop() {
		sum += ours(n)
		n++
	}
	mine := time.Since(start)
	n = max(n/16, 1) // the rival is slow: a part of the rows will do
	start = time.Now()
	for i := range n {
		sum -= rival(i)
	}
	theirs := time.Since(start)
	perRow := func(d time.Duration, n int) float64 { return float64(n) / d.Seconds() }
	b.ReportMetric(perRow(mine, b.N), "rows/s")
	b.ReportMetric(perRow(theirs, n), "rival-rows/s")
	b.ReportMetric(perRow(mine, b.N)/perRow(theirs, n), "times-rival")
	if sum == 0.5 { // keeps the sum alive
		b.Log(sum)
	}
}

// BenchmarkOperate10Points finds working points of fans of ten points; rival:
// piecewise linear interpolation and bisection.
func BenchmarkOperate10Points(b *testing.B) {
	r := benchRows(b)
	against(b,
		func(i int) float64 {
			x, _, _ := Operate(r.fan(i), r.sys)
			return x.Q
		},
		func(i int) float64 {
			line := &r.rival[i%r.fans]
			end := r.q[i%r.fans*pointsAFan+pointsAFan-1]
			return bisected(0, end, func(q float64) float64 { return line.Predict(q) - r.sys.Loss(q) })
		})
}

// BenchmarkSpeedFor10Points finds the speeds for one needed flow.
func BenchmarkSpeedFor10Points(b *testing.B) {
	r := benchRows(b)
	k := r.sys.Loss(r.need) / (r.need * r.need)
	against(b,
		func(i int) float64 {
			m, _, _ := SpeedFor(r.fan(i), r.sys, r.need)
			return m.Ratio
		},
		func(i int) float64 {
			line := &r.rival[i%r.fans]
			end := r.q[i%r.fans*pointsAFan+pointsAFan-1]
			return r.need / bisected(0, end, func(x float64) float64 { return line.Predict(x) - k*x*x })
		})
}

// The rival gets the same answers, so the comparison is fair; and neither
// question allocates.
func TestRivalAgreesAndNothingAllocates(t *testing.T) {
	r := benchRows(t)
	k := r.sys.Loss(r.need) / (r.need * r.need)
	for i := range 200 {
		c, line := r.fan(i), &r.rival[i]
		end, _ := c.FreeDelivery()
		x, _, err := Operate(c, r.sys)
		if err != nil {
			t.Fatal(err)
		}
		if want := bisected(0, end, func(q float64) float64 { return line.Predict(q) - r.sys.Loss(q) }); !near(x.Q, want, 1e-9) {
			t.Errorf("fan %d: Operate = %g, rival %g", i, x.Q, want)
		}
		m, _, err := SpeedFor(c, r.sys, r.need)
		if err != nil {
			t.Fatal(err)
		}
		if want := bisected(0, end, func(q float64) float64 { return line.Predict(q) - k*q*q }); !near(m.X, want, 1e-9) {
			t.Errorf("fan %d: SpeedFor = %g, rival %g", i, m.X, want)
		}
	}
	n := testing.AllocsPerRun(100, func() {
		c := r.fan(7).AtSpeed(0.9).AtDensity(1.1)
		Operate(c, r.sys)
		SpeedFor(c, r.sys, r.need)
		Held(c, r.sys, 0.8)
		TwoEnded(Axial().Mean, 0.01, 50).Stalled(0.005)
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
