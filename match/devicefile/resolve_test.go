package devicefile

import (
	"errors"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// A fan of the catalogue fills what the file leaves open; what the file says
// overrules it.
func TestResolve(t *testing.T) {
	f := parsed(t, "x", "device: x\npaths:\n- fan: {part: OMB-625B56B3, airflow_m3h: 44, leads: 2}\n  space: {depth: 38 mm}\n  leads: {alarm_below: 50 %}\n")
	if err := f.Resolve(look); err != nil {
		t.Fatal(err)
	}
	p := f.Device.Paths[0]
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"row", float64(p.Row), 0},
		{"airflow of the file", float64(p.Fitted.Airflow.Or(0)) * 3600, 44},
		{"pressure of the catalogue", float64(p.Fitted.StaticPressure.Or(0)), 120},
		{"leads of the file", p.Fitted.Leads.Or(0), 2},
		{"depth of the file", float64(p.Seat.DepthMax.Or(0)) * 1000, 38},
		{"width of the catalogue", float64(p.Seat.Width.Or(0)) * 1000, 60},
		{"pitch of the catalogue", float64(p.Seat.HolePitch.Or(0)) * 1000, 50},
		{"alarm by the catalogue's speed", float64(p.Seat.AlarmSpeed.Or(0)) * 60, 2800},
	} {
		if d := c.got - c.want; d > 1e-9 || d < -1e-9 {
			t.Errorf("%s = %v, want %v", c.name, c.got, c.want)
		}
	}
	if p.Seat.Watches != match.WatchTach {
		t.Error("an alarm speed says that the tach is watched")
	}
}

// The holes of the fan belong to its own frame.
func TestPitchOfAnotherFrame(t *testing.T) {
	f := parsed(t, "x", "device: x\npaths:\n- fan: {part: OMB-625B56B3}\n  space: {width: 80 mm}\n")
	if err := f.Resolve(look); err != nil {
		t.Fatal(err)
	}
	if s := f.Device.Paths[0].Seat; s.HolePitch.Known() || s.Height.Or(0) != 80*quantity.Millimetre {
		t.Errorf("seat %+v, want 80 by 80 mm without a pitch", s)
	}
}

// What the catalogue contradicts, or does not hold, is told with its place in
// the file.
func TestResolveRefuses(t *testing.T) {
	f := parsed(t, "x.yaml", "device: x\npaths:\n- name: a\n  fan:\n    part: OMB-1\n- name: b\n  fan: {part: OMB-420B70B3}\n"+
		"  space: {depth: 15 mm, hole_pitch: 50 mm}\n  supply: {kind: ac}\n  leads: {alarm_below: 7200 rpm}\n")
	err := f.Resolve(look)
	var e *Error
	if !errors.As(err, &e) || !errors.Is(err, errNoPart) {
		t.Fatalf("Resolve = %v, want *Error with %v", err, errNoPart)
	}
	want := []string{
		"5:11: no such fan in the catalogue",
		"8:18: the fan that sits there is 20 mm deep, the space 15 mm",
		"8:37: the holes of the fan that sits there are 32 mm apart, those of the space 50 mm",
		"9:18: the supply is ac, the fan's is dc",
		"10:24: the device would complain below 7200 rpm, the fan turns at 7000 rpm at most",
	}
	if got := reasons(e.Problems); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("problems %q,\nwant %q", got, want)
	}
	if !strings.Contains(err.Error(), "x.yaml:5:11: no such fan in the catalogue\n  5 |     part: OMB-1\n    |           ^\n") {
		t.Errorf("message:\n%v", err)
	}
}

type hinted struct{ error }

func (hinted) Hint() string { return "near it is OMB-2" }

func TestResolvePassesOnHints(t *testing.T) {
	f := parsed(t, "x", "device: x\npaths: [{fan: {part: OMB-1}}]\n")
	err := f.Resolve(func(string) (int, *catalog.Fan, error) { return 0, nil, hinted{errNoPart} })
	if err == nil || !strings.HasSuffix(err.Error(), "\n  near it is OMB-2") {
		t.Errorf("Resolve = %v, want the hint of the lookup", err)
	}
}

// Ends of a curve in the file take the place of the catalogue's curve.
func TestOverruleDropsTheCurve(t *testing.T) {
	base := fanOf("part=X curve=0:60;20:40;40:0 airflow_m3h=40 static_pressure_pa=60")
	for _, c := range []struct {
		said   string
		points int
		drops  bool
	}{
		{"airflow_m3h: 30", 0, true}, {"static_pressure_pa: 50", 0, true}, {"noise_dba: 30", 3, false},
		{"airflow_m3h: 30, curve: 0:50;30:0", 2, false},
	} {
		f := parsed(t, "x", "device: x\npaths: [{fan: {part: X, "+c.said+"}}]\n")
		got := f.Fans[0].Overrule(base)
		if len(got.Curve) != c.points || f.Fans[0].DropsCurve() != c.drops || len(base.Curve) != 3 {
			t.Errorf("%s: curve %v, dropped %v, want %d points, %v", c.said, got.Curve, f.Fans[0].DropsCurve(), c.points, c.drops)
		}
	}
}

// A space a little wider than the fan is room for its frame; one that is itself
// a usual frame is a seat for that frame.
func TestRoomAroundTheFan(t *testing.T) {
	fan := &catalog.Fan{Part: "F", Width: quantity.Stated(50 * quantity.Millimetre), Height: quantity.Stated(50 * quantity.Millimetre)}
	of := func(width quantity.Length) match.Seat {
		return completed(match.Seat{Width: quantity.Stated(width), Height: quantity.Stated(width)}, fan)
	}
	if s := of(52 * quantity.Millimetre); s.Width != fan.Width || s.SpaceWidth != quantity.Stated(52*quantity.Millimetre) {
		t.Errorf("52 mm around a 50 mm fan: frame %v, space %v", s.Width, s.SpaceWidth)
	}
	if s := of(60 * quantity.Millimetre); s.Width != quantity.Stated(60*quantity.Millimetre) || s.SpaceWidth.Known() {
		t.Errorf("60 mm around a 50 mm fan: frame %v, space %v", s.Width, s.SpaceWidth)
	}
}
