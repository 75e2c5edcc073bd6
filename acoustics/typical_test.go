package acoustics

import (
	"math"
	"slices"
	"strings"
	"testing"

	"lowsone/catalog/quantity"
)

const rpm = quantity.RevolutionPerMinute

// Octave levels of the published example: 16,000 m³/h against 600 Pa at 1250
// rpm. The overall level is the test's own, L = L_WSM + 10·lg V + 20·lg Δp, with
// 0.1 dB for the best duty.
func TestVDIOctaves(t *testing.T) {
	overall := 34 + decibel(16000.0/3600) + 20*math.Log10(600)
	var rows []published
	rows = append(rows, published{id: "F08", call: "overall level", got: overall})
	for i, f := range OctaveNominal[1:] {
		octave := vdiBackward.octave(quantity.Frequency(f), 1250*rpm)
		rows = append(rows, published{id: "F09", call: "overall level + octave(" + trimmed(f) + " Hz)", got: overall + 0.1 + octave, item: i})
	}
	compare(t, "sound_fan_laws.csv", rows)
}

// The tolerance of the row is relative.
func TestStrouhalNumber(t *testing.T) {
	row := recordOf(t, records(t, "sound_fan_laws.csv"), "F11")
	for i, text := range strings.Split(row["expected"], ";") {
		f, want := quantity.Frequency(OctaveNominal[i+1]), number(t, text)
		check(t, "strouhalNumber", strouhalNumber(f, 1250*rpm), want, number(t, row["tolerance"])*want, row["source"])
	}
}

// The row lists kinds, each with L_WSM, c₃ and what the blade tone adds.
func TestVDIConstants(t *testing.T) {
	row := recordOf(t, records(t, "sound_fan_laws.csv"), "F13")
	_, kinds, _ := strings.Cut(row["inputs"], "blade tone: ")
	wheels := []*strouhal{&vdiBackward, &vdiDrum, &vdiAxial}
	for i, kind := range strings.Split(kinds, ";") {
		check(t, "c₃ of "+wheels[i].name, wheels[i].offset, number(t, strings.Split(kind, ",")[1]), 0, kind+", "+row["source"])
	}
}

// The shapes against the published spectra in thirds at 40 dB(A). Those of VDI
// 2081 are the same formula. The others were drawn there as straight lines
// through the octaves' levels, so that a peak lost up to 1 dB of its octave;
// ours keep it.
func TestTypicalThirds(t *testing.T) {
	for _, r := range []struct {
		name  string
		shape Shape
		tol   float64
	}{
		{"vdi_axial_1500rpm", vdiAxial.at1500, 0.02},
		{"vdi_axial_3000rpm", vdiAxial.at3000, 0.02},
		{"propeller_octave_shape", axialShapes[0], 1.4},
		{"axial_octave_shape_a", axialShapes[1], 0.8},
		{"axial_octave_shape_b", axialShapes[2], 0.4},
		{"forward_curved_octave_shape", forwardCurved, 0.6},
	} {
		want, got := spectrumNamed(t, r.name), r.shape.Thirds.ScaledTo(level(40))
		for i := range got {
			check(t, r.shape.Name+" at "+trimmed(ThirdNominal[i])+" Hz", got[i], want[i], r.tol, r.name)
		}
	}
}

// The octaves of a shape are the published ones, but for the level.
func TestTypicalOctaves(t *testing.T) {
	shapes := map[string]Shape{
		"propeller_octave_shape": axialShapes[0], "axial_octave_shape_a": axialShapes[1],
		"axial_octave_shape_b": axialShapes[2], "forward_curved_octave_shape": forwardCurved,
	}
	for _, r := range records(t, "sound_fan_spectra.csv") {
		shape, ok := shapes[r["spectrum"]]
		if !ok {
			continue
		}
		_, list, _ := strings.Cut(strings.ReplaceAll(r["source"], "; 8 kHz set to ", ","), "(")
		octaves := shape.Thirds.Octaves()
		var first float64
		for i, text := range strings.Split(list, ",") {
			want := number(t, strings.TrimPrefix(text, "+"))
			if i == 0 {
				first = want
			}
			got := octaves[i+1] - octaves[1]
			check(t, shape.Name+" at "+trimmed(OctaveNominal[i+1])+" Hz less that at 63 Hz", got, want-first, 1e-6, r["source"])
		}
	}
}

// Every list is of shapes at 0 dB(A), none twice; those that depend on the speed
// come for it, or at two speeds.
func TestAppendTypical(t *testing.T) {
	none, at2000 := quantity.Known[quantity.Speed]{}, quantity.Stated(2000*rpm)
	for _, r := range []struct {
		wheel  Wheel
		n      quantity.Known[quantity.Speed]
		count  int
		middle string
	}{
		{Axial, at2000, 4, "VDI 2081 axial fan"},
		{Axial, none, 5, "VDI 2081 axial fan at 3000 rpm"},
		{Axial, quantity.Stated(quantity.Speed(math.NaN())), 5, "VDI 2081 axial fan at 3000 rpm"},
		{Axial, quantity.Stated[quantity.Speed](0), 5, "VDI 2081 axial fan at 3000 rpm"},
		{Centrifugal, at2000, 3, "VDI 2081 drum"},
		{Centrifugal, none, 5, "VDI 2081 drum at 3000 rpm"},
		{Mixed, at2000, 7, "VDI 2081 axial fan"},
		{Mixed, none, 10, "VDI 2081 axial fan at 3000 rpm"},
		{0, at2000, 0, ""},
		{9, none, 0, ""},
	} {
		list := AppendTypical(nil, r.wheel, r.n)
		if len(list) != r.count || r.count > 0 && list[0].Name != r.middle {
			t.Errorf("AppendTypical(%v, %v) = %d shapes, %+v, want %d, %q first", r.wheel, r.n, len(list), list, r.count, r.middle)
		}
		for i, s := range list {
			check(t, "A of "+s.Name, s.Thirds.A().DB(), 0, 1e-9, "shapes stand at 0 dB(A)")
			if s.Source == "" || slices.ContainsFunc(list[:i], func(o Shape) bool { return o.Name == s.Name }) {
				t.Errorf("AppendTypical(%v, %v): %q has no source or stands twice", r.wheel, r.n, s.Name)
			}
		}
	}
}

// At another speed the shape of VDI 2081 is the old one moved: the Strouhal
// number is what counts.
func TestStrouhalShapeMoves(t *testing.T) {
	half := vdiAxial.at3000.Thirds
	half, _ = half.AtSpeed(0.5)
	half = half.ScaledTo(level(0))
	for i := range half[:25] { // above, what enters goes on straight
		check(t, "3000 rpm at half speed, "+trimmed(ThirdNominal[i])+" Hz", half[i], vdiAxial.at1500.Thirds[i], 0.05, "the shape at 1500 rpm")
	}
}

// Octave levels of sound power of ventilation fans for a flow of 1 cfm against 1
// in.wg, each brought to 0 dB(A), against the span of the shapes of its kind: the
// two sources of shapes agree no better than to the tolerance.
func TestTypicalAgainstSpecificPower(t *testing.T) {
	n := quantity.Stated(1500 * rpm)
	for _, r := range records(t, "sound_fan_specific_power.csv") {
		wheel, tol := Centrifugal, specificCentrifugal
		if strings.Contains(r["fan_type"], "axial") || r["fan_type"] == "propeller" {
			wheel, tol = Axial, specificAxial
		}
		var want Octaves
		want[0] = math.Inf(-1)
		for i := 1; i < NumOctaves; i++ {
			want[i] = number(t, r[trimmed(OctaveNominal[i])])
		}
		want = want.ScaledTo(level(0))
		for i := 1; i < NumOctaves; i++ {
			low, high := math.Inf(1), math.Inf(-1)
			for _, s := range AppendTypical(nil, wheel, n) {
				octaves := s.Thirds.Octaves()
				low, high = min(low, octaves[i]), max(high, octaves[i])
			}
			nearest := min(max(want[i], low), high)
			check(t, "shapes for "+r["fan_type"]+" at "+trimmed(OctaveNominal[i])+" Hz", nearest, want[i], tol, r["source"])
		}
	}
}

const (
	specificAxial       = 5.3 // dB, of propeller and tube-axial fans below 250 Hz
	specificCentrifugal = 3.6 // dB, of forward-curved wheels at 125 Hz
)

func TestTypicalNoAllocation(t *testing.T) {
	list := make([]Shape, 0, 10)
	n := quantity.Stated(2000 * rpm)
	if allocs := testing.AllocsPerRun(100, func() { list = AppendTypical(list[:0], Mixed, n) }); allocs != 0 {
		t.Errorf("AppendTypical: %v allocations a run, want none", allocs)
	}
}
