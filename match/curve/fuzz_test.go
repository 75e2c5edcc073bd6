package curve

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"
)

// FuzzCrossings feeds any points and any system: nothing panics, points are
// accepted or refused by name, and what is found lies on the curve, by rising
// flow, on both curves where the numbers are those of fans.
func FuzzCrossings(f *testing.F) {
	for _, c := range publishedCurves(f) {
		f.Add(encode(c.Curve), 0.0, 1.0, 0.5)
	}
	f.Add(encode(View([]float64{0, 1, 2, 3, 4}, []float64{8, 2, 6, 4, 0})), 2.9, 0.0, 1.0)
	f.Add(encode(View([]float64{0, 1, 2, 3}, []float64{4, 0, 0, 0})), 0.0, 0.0, 2.0)
	f.Add(encode(View([]float64{1, 4}, []float64{0.5, 6.5})), 0.0, 2.0/3, 3.0)
	f.Add([]byte{}, math.NaN(), -1.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, data []byte, a, b, need float64) {
		q, p := decode(data)
		c, err := New(q, p)
		if err != nil {
			var points *PointsError
			if !errors.As(err, &points) || c.Len() != 0 {
				t.Fatalf("New(%v, %v) = %d knots, %v", q, p, c.Len(), err)
			}
			return
		}
		s := System{A: a, B: b}
		all := Crossings(nil, c, s)
		first, _ := c.Knot(0)
		last, _ := c.FreeDelivery()
		for i, x := range all {
			if !(x.Q >= first && x.Q <= last && x.P >= 0) || i > 0 && x.Q < all[i-1].Q {
				t.Fatalf("crossings %+v of %v, %v with %+v", all, q, p, s)
			}
			if ordinary(q, p, s) && math.Abs(x.P-s.Loss(x.Q)) > 1e-6*(x.P+s.Loss(x.Q))+1e-9 {
				t.Fatalf("%+v: the device takes %g Pa (%v, %v, %+v)", x, s.Loss(x.Q), q, p, s)
			}
		}
		x, n, err := Operate(c, s)
		if (err == nil) != (n > 0) || err == nil && !x.Stable {
			t.Fatalf("Operate = %+v, %d, %v", x, n, err)
		}
		if m, n, err := SpeedFor(c, s, need); err == nil && (n < 1 || !(m.Ratio >= 0) || !(m.X > 0)) {
			t.Fatalf("SpeedFor = %+v, %d", m, n)
		}
		sameAsWalks(t, c, s, need)
		Held(c, s, need)
		c.Dip()
		if side, err := Parallel(c, c); err == nil {
			Crossings(nil, side, s)
		}
		if _, err := Series(c, c.AtSpeed(need)); err == nil && !(need > 0) {
			t.Fatalf("Series with a fan at %g of its speed", need)
		}
	})
}

// ordinary tells whether steps, pressures and system are of the size of fans,
// within twelve powers of ten, so that rounding stays small.
func ordinary(q, p []float64, s System) bool {
	for i := range q {
		if q[i] > 1e3 || i > 0 && q[i]-q[i-1] < 1e-6 || p[i] > 1e6 || p[i] > 0 && p[i] < 1e-6 {
			return false
		}
	}
	return s.A < 1e9 && s.B < 1e9 && (s.A == 0 || s.A > 1e-9) && (s.B == 0 || s.B > 1e-9)
}

// encode and decode turn points into bytes and back, up to 32 of them.
func encode(c Curve) (data []byte) {
	for i := range min(c.Len(), 32) {
		q, p := c.Knot(i)
		data = binary.LittleEndian.AppendUint64(data, math.Float64bits(q))
		data = binary.LittleEndian.AppendUint64(data, math.Float64bits(p))
	}
	return data
}

func decode(data []byte) (q, p []float64) {
	for len(data) >= 16 && len(q) < 32 {
		q = append(q, math.Float64frombits(binary.LittleEndian.Uint64(data)))
		p = append(p, math.Float64frombits(binary.LittleEndian.Uint64(data[8:])))
		data = data[16:]
	}
	return q, p
}
