package sample

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"gonum.org/v1/gonum/interp"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// benchFan is a two-ended fan of the benchmark; flow in m³/h.
func benchFan(part string, flow, pressure, level, rpm float64) *catalog.Fan {
	return &catalog.Fan{
		Part: part, Maker: "Bench", Kind: quantity.Stated(catalog.Axial), Supply: quantity.Stated(catalog.DC),
		Width: quantity.Stated(60 * quantity.Millimetre), Height: quantity.Stated(60 * quantity.Millimetre),
		Voltage: quantity.Stated(12 * quantity.Volt), Airflow: quantity.Stated(quantity.Flow(flow) * quantity.CubicMetrePerHour),
		StaticPressure: quantity.Stated(quantity.Pressure(pressure)), Noise: quantity.Stated(quantity.Decibel(level)),
		Speed: quantity.Stated(quantity.Speed(rpm / 60)), PWM: quantity.Stated(true),
	}
}

// benchStudy is a device by a heat balance with n fans that are enough for it.
func benchStudy(b *testing.B, n int) *match.Study {
	b.Helper()
	random := rand.New(rand.NewPCG(1, 2))
	fans := make([]*catalog.Fan, n)
	for i := range fans {
		fans[i] = benchFan(fmt.Sprintf("B%d", i), 45+25*random.Float64(), 100+80*random.Float64(), 25+20*random.Float64(), 3000+3000*random.Float64())
	}
	fitted := benchFan("FITTED", 48, 120, 43, 5600)
	req := match.Request{Path: match.Path{
		Fitted: fitted, Row: match.NotInCatalogue, Seat: match.SeatOf(fitted),
		Way: match.Way{Method: resistance.ByHeat, Heat: match.Heat{Power: 90, AirRise: 12}},
	}, Need: match.Need{Share: 0.8}}
	study, err := looked(context.Background(), catalog.ColumnsOf(fans...), req, len(fans)+1, 0)
	if err != nil {
		b.Fatal(err)
	}
	if got := len(study.Contenders()); got < n {
		b.Fatalf("%d contenders of %d fans", got, n)
	}
	return study
}

// BenchmarkSample draws the device 256 times and asks 300 fans under each draw,
// on one core: the target is 100 ms. A row is one fan under one draw. The rival
// finds the two crossings of a row (the speed for the need, the flow at full
// speed) by interpolation and bisection, and nothing else; the two take turns, so
// that both meet the same machine.
func BenchmarkSample(b *testing.B) {
	const fans = 300
	study := benchStudy(b, fans)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	o, _ := Options{Most: fans}.filled()
	var ours, theirs pace
	other := newRival(b, study, o)
	b.ReportAllocs()
	for b.Loop() {
		start := time.Now()
		d, err := drawDevices(study, o.Draws, o.Seed)
		if err != nil {
			b.Fatal(err)
		}
		asked, err := askFans(context.Background(), study, d, o)
		if err != nil {
			b.Fatal(err)
		}
		ours.add(len(d.drawn)*len(asked), start)
		b.StopTimer()
		start = time.Now()
		theirs.add(other.run(60), start)
		b.StartTimer()
	}
	b.ReportMetric(ours.rows(), "rows/s")
	b.ReportMetric(theirs.rows(), "rival-rows/s")
	b.ReportMetric(ours.rows()/theirs.rows(), "times-rival")
}

// pace is how many rows took how long.
type pace struct {
	n    int
	took time.Duration
}

func (p *pace) add(n int, start time.Time) { p.n, p.took = p.n+n, p.took+time.Since(start) }

func (p *pace) rows() float64 { return float64(p.n) / p.took.Seconds() }

// rival finds crossings by interpolation and bisection.
type rival struct {
	shapes [33]interp.PiecewiseLinear
	drawn  []*match.Drawn
	sum    float64
}

func newRival(b *testing.B, study *match.Study, o Options) *rival {
	b.Helper()
	r := &rival{}
	for i := range r.shapes {
		c := curve.TwoEnded(curve.Axial().At((float64(i)+0.5)/33), 1, 1)
		var q, p []float64
		for k := range c.Len() {
			x, y := c.Knot(k)
			q, p = append(q, x), append(p, y)
		}
		if err := r.shapes[i].Fit(q, p); err != nil {
			b.Fatal(err)
		}
	}
	d, err := drawDevices(study, o.Draws, o.Seed)
	if err != nil {
		b.Fatal(err)
	}
	r.drawn = d.drawn
	return r
}

// run takes so many fans through all draws and gives the rows.
func (r *rival) run(fans int) int {
	const p0 = 130.0 // Pa
	for i := range fans {
		q0 := 0.0125 + 0.0003*float64(i)
		for k, one := range r.drawn {
			line, system := &r.shapes[(k+i)%len(r.shapes)], one.System()
			need, _ := one.Need()
			slope := system.Loss(need) / (need * need)
			x := bisected(q0, func(x float64) float64 { return p0*line.Predict(x/q0) - slope*x*x })
			r.sum += need/x + bisected(q0, func(x float64) float64 { return p0*line.Predict(x/q0) - system.Loss(x) })
		}
	}
	return fans * len(r.drawn)
}

// bisected gives the place below high where f changes sign, to about 1e-12 of it.
func bisected(high float64, f func(x float64) float64) float64 {
	low := 0.0
	for range 40 {
		if mid := (low + high) / 2; f(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
