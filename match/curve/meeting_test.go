package curve

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// longCurve draws a curve that falls, now and then with a dip, of up to 40 knots.
func longCurve(t *rapid.T) Curve {
	n := rapid.IntRange(2, 40).Draw(t, "knots")
	q, p := make([]float64, n), make([]float64, n)
	dips := rapid.Bool().Draw(t, "dips")
	for i := 1; i < n; i++ {
		q[i] = q[i-1] + rapid.Float64Range(0.0002, 0.002).Draw(t, "step")
		fall := rapid.Float64Range(0, 5).Draw(t, "fall")
		if dips && rapid.IntRange(0, 4).Draw(t, "rise") == 0 {
			fall = -fall
		}
		p[n-1-i] = max(p[n-i]+fall, 0)
	}
	p[0] += 0.5
	return mustNewRapid(t, q, p)
}

// everyWay returns c as it is, with what is known of its knots forgotten, and
// as a row among others.
func everyWay(c Curve) [3]Curve {
	q, p := c.raw()
	n := uint32(len(q))
	rows := NewRows([]uint32{0, 2, 2, 2 + n, 4 + n},
		append(append([]float64{0, 1}, q...), 0, 1), append(append([]float64{1, 0}, p...), 1, 0))
	return [3]Curve{c, View(q, p).Scaled(c.flow, c.pressure), rows.Curve(3).Scaled(c.flow, c.pressure)}
}

// sameAsWalks compares Operate and SpeedFor with walks along the curve, to the
// last bit: the answers, how many they are, the reasons where there is none.
func sameAsWalks(t interface{ Fatalf(string, ...any) }, c Curve, s System, need float64) {
	wantPoint, wantStable, wantErr := walkForPoint(c, s)
	wantMatch, wantCount, wantWhy := walkForSpeed(c, s, need)
	for way, c := range everyWay(c) {
		point, stable, err := Operate(c, s)
		if point != wantPoint || stable != wantStable || !sameReason(err, wantErr) {
			t.Fatalf("way %d: Operate(%v, %+v) = %+v, %d, %v; a walk tells %+v, %d, %v", way, knots(c), s, point, stable, err, wantPoint, wantStable, wantErr)
		}
		if !(need > 0) || !isFinite(need) || !s.valid() {
			continue
		}
		match, count, err := SpeedFor(c, s, need)
		if match != wantMatch || count != wantCount || !sameReason(err, wantWhy) {
			t.Fatalf("way %d: SpeedFor(%v, %+v, %g) = %+v, %d, %v; a walk tells %+v, %d, %v", way, knots(c), s, need, match, count, err, wantMatch, wantCount, wantWhy)
		}
	}
}

// sameReason compares errors by kind and text, since they may hold what is no
// number.
func sameReason(a, b error) bool {
	return reflect.TypeOf(a) == reflect.TypeOf(b) && fmt.Sprint(a) == fmt.Sprint(b)
}

// someCurve draws one of either kind.
func someCurve(t *rapid.T) Curve {
	if rapid.Bool().Draw(t, "long") {
		return longCurve(t)
	}
	return anyCurve(t, false)
}

func TestAnswersAreThoseOfAWalk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := someCurve(t)
		c = c.Scaled(rapid.SampledFrom([]float64{1, 0.7, 1.3}).Draw(t, "flow"), rapid.SampledFrom([]float64{1, 0.7, 2.1}).Draw(t, "pressure"))
		sameAsWalks(t, c, anySystem(t), rapid.Float64Range(0.0005, 0.1).Draw(t, "need"))
	})
}

// A device that passes close to a knot, or through it.
func TestAnswersCloseToKnots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := someCurve(t)
		q, p := c.raw()
		i := rapid.IntRange(1, len(q)-1).Draw(t, "knot")
		off := rapid.SampledFrom([]float64{0, 1e-16, 4e-13, 1e-12, 3e-12, 1e-11, 3e-11, 1e-9}).Draw(t, "off")
		if rapid.Bool().Draw(t, "below") {
			off = -off
		}
		share := rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(t, "linear")
		pressure := max(p[i], 1e-3) * (1 + off)
		s := System{A: share * pressure / q[i], B: (1 - share) * pressure / (q[i] * q[i])}
		sameAsWalks(t, c, s, q[i]*rapid.SampledFrom([]float64{1, 0.5, 2}).Draw(t, "need"))
	})
}

// The same on the way down, where the device comes close to a valley before it
// is met, and where it is met close behind a peak, before a steep fall.
func TestAnswersCloserAndCloser(t *testing.T) {
	for off := 1e-16; off < 1e-8; off *= 1.3 {
		for _, off := range []float64{-off, off} {
			valley := View([]float64{0, 1, 2, 4}, []float64{8, 2 * (1 + off), 10, 0})
			slope := mustNew(t, []float64{0, 1, 2, 4}, []float64{8, 2 * (1 + off), 1, 0})
			peak := View([]float64{0, 2.9, 3, 3.01}, []float64{40, 16.9, 18 * (1 + off), 0})
			for _, s := range []System{{A: 2}, {B: 2}, {A: 1, B: 1}} {
				sameAsWalks(t, slope, s, 1)
				sameAsWalks(t, valley, s, 1)
				sameAsWalks(t, peak, s, 1)
			}
		}
	}
}

func TestAnswersAtTheLimits(t *testing.T) {
	curves := map[string]Curve{
		"zero":                 {},
		"two knots":            View([]float64{0, 1}, []float64{1, 0}),
		"begins later":         View([]float64{1, 2, 3}, []float64{3, 2, 1}),
		"from the origin":      View([]float64{0, 1, 2, 3}, []float64{0, 3, 2, 0}),
		"level at zero":        View([]float64{0, 1, 2, 3}, []float64{4, 0, 0, 0}),
		"peak after the valve": View([]float64{0, 1, 2, 3, 4}, []float64{8, 2, 6, 4, 0}),
		"steeper than a ray":   View([]float64{0, 1, 1.1, 3}, []float64{8, 1, 7, 0}),
		"along a ray":          View([]float64{1, 2, 3, 4}, []float64{2, 4, 6, 0}),
		"ends above":           View([]float64{0, 1, 2}, []float64{4, 3, 2}),
		"tiny":                 View([]float64{0, 1e-160, 2e-160}, []float64{1e-170, 1e-171, 0}),
		"huge":                 View([]float64{0, 1e8, 1e9}, []float64{1e9, 1e8, 0}),
		"single point":         View([]float64{1}, []float64{1}),
	}
	values := []float64{0, math.Copysign(0, -1), 1, 2, 2.9, 7, -1, 1e-300, 1e-12, 1e12, 1e99, 1e101, 1e300, math.NaN(), math.Inf(1), math.Inf(-1)}
	for name, c := range curves {
		t.Run(name, func(t *testing.T) {
			for _, a := range values {
				for _, b := range values {
					for _, need := range []float64{1e-300, 0.5, 1, 1e300} {
						sameAsWalks(failure{t, fmt.Sprint(name, a, b)}, c, System{A: a, B: b}, need)
					}
				}
			}
		})
	}
}

// failure names the case that failed.
type failure struct {
	t    *testing.T
	name string
}

func (f failure) Fatalf(text string, with ...any) {
	f.t.Helper()
	f.t.Fatalf("%s: "+text, append([]any{f.name}, with...)...)
}

// Where p/q never rises there is one crossing at most; and what falls is such.
func TestMeetsOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := longCurve(t), anySystem(t)
		q, p := c.raw()
		falls := true
		for i := 1; i < len(p); i++ {
			falls = falls && p[i] <= p[i-1]
		}
		once := meetsOnce(q, p)
		if falls && !once {
			t.Fatalf("%v falls but is not taken for one that is met once", knots(c))
		}
		if all := Crossings(nil, c, s); once && len(all) > 1 {
			t.Fatalf("%v meets %+v at %+v", knots(c), s, all)
		}
	})
	for _, test := range []struct {
		p    []float64 // over q = 1, 2, 3, 4
		want bool
	}{
		{[]float64{4, 3, 2, 0}, true},
		{[]float64{4, 3, 4.5, 0}, true}, // a dip, 4.5/3 ≤ 3/2
		{[]float64{4, 3, 4.6, 0}, false},
		{[]float64{1, 2, 3, 4}, true}, // along a ray
		{[]float64{0, 1, 0, 0}, false},
		{[]float64{4, math.NaN(), 2, 0}, false},
	} {
		if got := meetsOnce([]float64{1, 2, 3, 4}, test.p); got != test.want {
			t.Errorf("meetsOnce(%v) = %t, want %t", test.p, got, test.want)
		}
	}
}

// The shapes are such, each of them: a ranking looks for their crossings in
// strides.
func TestShapesMeetADeviceOnce(t *testing.T) {
	for _, shapes := range []Shapes{Axial(), Centrifugal(), Mixed()} {
		all := []*Shape{shapes.Mean, shapes.Low, shapes.High}
		for i := range familySize {
			all = append(all, shapes.At((float64(i)+0.5)/familySize))
		}
		for i, s := range all {
			if !s.once {
				t.Errorf("shape %d: p/q rises: %v", i, s.p)
			}
		}
	}
}

// firstBelow and countAbove say the same of curves that fall, of any length.
func TestStridesCountRight(t *testing.T) {
	for n := 2; n <= 40; n++ {
		q, p := make([]float64, n), make([]float64, n)
		for i := range q {
			q[i], p[i] = float64(i), float64(n-1-i)
		}
		for cross := 1; cross < n; cross++ {
			a := (p[cross] + 0.25) / (q[cross] - 0.25) // between two knots
			if got := firstBelow(q, p, a, 0); got != cross {
				t.Errorf("%d knots: firstBelow = %d, want %d", n, got, cross)
			}
			if got := countAbove(q, p, a, 0); got != cross {
				t.Errorf("%d knots: countAbove = %d, want %d", n, got, cross)
			}
		}
	}
}

// A Curve of more than four words is no longer handed on in registers, which
// makes a crossing three times as long.
func TestCurveIsFourWords(t *testing.T) {
	if size := reflect.TypeFor[Curve]().Size(); size > 32 {
		t.Errorf("a Curve has %d bytes, want 32 at most", size)
	}
}
