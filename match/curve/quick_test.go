package curve

import "testing"

func TestQuick(t *testing.T) {
	c := TwoEnded(Axial().Mean, 50.0/3600, 60)
	s := System{B: 30 / (0.005 * 0.005)}
	x, n, err := Operate(c, s)
	if err != nil || n != 1 {
		t.Fatal(x, n, err)
	}
	m, k, err := SpeedFor(c, s, x.Q)
	if err != nil || k != 1 || m.Ratio < 0.999999 || m.Ratio > 1.000001 || !m.Stable {
		t.Fatal(m, k, err)
	}
	par, err := Parallel(c, TwoEnded(Axial().Mean, 30.0/3600, 25))
	if err != nil {
		t.Fatal(err)
	}
	_, _, err = Operate(par, s)
	t.Log(par.ShutOff())
	t.Log(x, err)
	ser, err := Series(c, TwoEnded(Axial().Mean, 30.0/3600, 25))
	if err != nil {
		t.Fatal(err)
	}
	t.Log(ser.FreeDelivery())
	t.Log(Operate(ser, s))
}

func BenchmarkQ(b *testing.B) {
	c, _ := New([]float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, []float64{10, 9, 8.5, 8, 8.2, 7, 6, 4, 2, 0})
	s := System{A: 0.1, B: 0.1}
	b.ReportAllocs()
	for b.Loop() {
		Operate(c, s)
	}
}
