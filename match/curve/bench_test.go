package curve

import (
	"math/rand/v2"
	"testing"
	"time"

	"gonum.org/v1/gonum/interp"
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

// against runs ours over all rows, pass after pass, and the rival's over a part
// of them, and reports rows per second and their ratio. Only ours counts for
// allocations.
func against(b *testing.B, ours func(s System) float64, rival func(s System, i int) float64) {
	r := benchRows(b)
	b.ReportAllocs()
	passes, sum := 0, 0.0
	start := time.Now()
	for b.Loop() {
		sum += ours(r.devices[passes%devicesInBench])
		passes++
	}
	mine := time.Since(start)
	start = time.Now()
	for i := range fansInBench {
		sum -= rival(r.devices[i%devicesInBench], i)
	}
	theirs := time.Since(start)
	perSecond := func(d time.Duration, n int) float64 { return float64(n) / d.Seconds() }
	n := passes * fansInBench
	b.ReportMetric(perSecond(mine, n), "rows/s")
	b.ReportMetric(float64(mine.Nanoseconds())/float64(n), "ns/row")
	b.ReportMetric(perSecond(theirs, fansInBench), "rival-rows/s")
	b.ReportMetric(perSecond(mine, n)/perSecond(theirs, fansInBench), "times-rival")
	if sum == 0.5 { // keeps the sum alive
		b.Log(sum)
	}
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

// BenchmarkTwoEnded is what a ranking asks of a fan of which only the ends are
// known: its curve in this air, the speed for the need, the point at full speed.
func BenchmarkTwoEnded(b *testing.B) {
	r := benchRows(b)
	shapes := [...]*Shape{Axial().Mean, Centrifugal().Mean}
	passes, sum := 0, 0.0
	b.ReportAllocs()
	for b.Loop() {
		s := r.devices[passes%devicesInBench]
		for i := range fansInBench {
			p0, _ := r.Curve(i).ShutOff()
			c := TwoEnded(shapes[i*7/4%2], r.end(i), p0).AtDensity(1.15)
			m, _, _ := SpeedFor(c, s, r.need)
			x, _, _ := Held(c, s, 0.97)
			sum += m.Ratio + x.Q
		}
		passes++
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(passes*fansInBench), "ns/row")
}

// The rival gets the same answers, so the comparison is fair; and neither
// question allocates.
func TestRivalAgreesAndNothingAllocates(t *testing.T) {
	r := benchRows(t)
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
