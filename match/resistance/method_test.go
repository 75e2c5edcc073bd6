package resistance

import "testing"

func TestMethodNames(t *testing.T) {
	for m, want := range map[Method]string{
		None: "none", ByShare: "share", ByFlow: "flow", ByPressure: "pressure", ByHeat: "heat", ByPoints: "points", ByGeometry: "geometry", 99: "none",
	} {
		if got := m.String(); got != want {
			t.Errorf("Method(%d) is %q, want %q", m, got, want)
		}
	}
}
