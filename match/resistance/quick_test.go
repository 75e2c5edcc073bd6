package resistance

import (
	"testing"

	"lowsone/match/curve"
)

func TestQuick(t *testing.T) {
	c := curve.TwoEnded(curve.Axial().Mean, 50.0/3600, 60)
	for _, s := range []float64{.2, .55, .88, .95} {
		e, err := Share(c, s)
		t.Logf("%+v %v", e, err)
	}
	e, err := Pressure(c, 30)
	t.Logf("%+v %v", e, err)
	e, err = Pressure(c, 62)
	t.Logf("%+v %v", e, err)
	e, err = Pressure(c, 82)
	t.Logf("%+v %v", e, err)
	e, err = Heat(c, HeatInput{Power: 90, AirRise: 9, InletC: 24, InletKnown: true})
	t.Logf("%+v %v", e, err)
	e, err = Heat(c, HeatInput{Power: 200, AirRise: 9, InletC: 24, InletKnown: true})
	t.Logf("%+v %v", e, err)
	e, err = Points(c, []float64{.005, .01}, []float64{10, 30})
	t.Logf("%+v %v", e, err)
}
