package gen

import (
	"math"
	"strings"
	"testing"
)

// Source: IEC 61672-1, table of weightings (testdata/sources/sound_weighting_iec61672.csv), to half a unit of its last digit.
func TestWeightAIsThePublished(t *testing.T) {
	checked := 0
	for _, row := range rows(t, "sound_weighting_iec61672.csv") {
		hz, want := float(t, row["exact_base10_hz"]), float(t, row["A_table_db"])
		checked++
		if got := weightA(hz); math.Abs(got-want) > 0.05 {
			t.Errorf("weightA(%v) = %.2f, want %v ± 0.05 (IEC 61672-1)", hz, got, want)
		}
	}
	if checked < 28 {
		t.Errorf("%d frequencies in the source, want at least 28", checked)
	}
}

// typical is the shape of axial fans as published, without a family's own.
var typical = voice{centre: -0.6, steep: 5}

// Source: testdata/sources/sound_fan_spectra.csv, VDI 2081 axial fan; levels there are printed to 0.01 dB, differences are good to 0.01.
func TestShapeIsThePublished(t *testing.T) {
	checked := 0
	for _, row := range rows(t, "sound_fan_spectra.csv") {
		rpm := map[string]float64{"vdi_axial_1500rpm": 1500, "vdi_axial_3000rpm": 3000}[row["spectrum"]]
		if rpm == 0 {
			continue
		}
		checked++
		levels := typical.at(rpm, 7)
		for i, name := range []string{"63", "125", "250", "500", "1000", "2000", "4000", "8000"} {
			got, want := levels[i]-levels[at1k], float(t, row[name])-float(t, row["1000"])
			if math.Abs(got-want) > 0.0101 {
				t.Errorf("shape at %v rpm, %s over 1 kHz = %.3f dB, want %.2f ± 0.01 (%s)", rpm, octaves[i], got, want, row["source"])
			}
		}
	}
	if checked != 2 {
		t.Errorf("%d VDI shapes in the source, want 2", checked)
	}
}

// heard are the fans with octaves.
func heard(specs []Spec) []Spec {
	var out []Spec
	for _, s := range specs {
		if s.OctavesDB[at1k].Known {
			out = append(out, s)
		}
	}
	return out
}

// stated are the levels of a label, unstated octaves without sound.
func stated(s Spec) (levels [numOctaves]float64, gap bool) {
	for i, l := range s.OctavesDB {
		levels[i] = math.Inf(-1)
		if l.Known {
			levels[i] = l.Value
		}
	}
	return levels, !s.OctavesDB[at500].Known
}

// The octaves add up to the level beside them, to half its step and what the rounding of eight levels to 0.1 dB leaves, under 0.05 dB.
func TestOctavesAddUpToTheLevel(t *testing.T) {
	for _, s := range heard(many()) {
		levels, gap := stated(s)
		sum := sumA(levels[:], 0)
		if !gap && math.Abs(sum-s.NoiseDBA.Value) > s.maker.levelStep/2+0.05 {
			t.Errorf("%s: octaves %v add up to %.2f dB(A), want %v ± %v", s.Part, levels, sum, s.NoiseDBA.Value, s.maker.levelStep/2+0.05)
		}
		if gap && sum >= s.NoiseDBA.Value {
			t.Errorf("%s: octaves %v without 500 Hz add up to %.2f dB(A), want less than %v", s.Part, levels, sum, s.NoiseDBA.Value)
		}
	}
}

// Each octave lies near the typical spectrum of the fan's own speed and level. The bounds are those of what a family draws: 0.1 in c₃, 2 dB in
// steepness, 0.8 dB of roughness, 2.5 dB of tone; the ends, which lie a decade from the top, may be off the most.
func TestOctavesAreThoseOfAFan(t *testing.T) {
	for _, s := range heard(many()) {
		want := typical.at(s.Physics.SpeedRPM, 7)
		up := s.NoiseDBA.Value - sumA(want[:], 0)
		levels, _ := stated(s)
		for i, l := range levels {
			limit := 3.0
			if i < at125+1 || i > at1k+1 {
				limit = 5
			}
			if !math.IsInf(l, -1) && (math.Abs(l-want[i]-up) > limit || l < 0) {
				t.Errorf("%s at %v rpm: %v dB at %s, want %.1f ± %v and not under 0", s.Part, s.Physics.SpeedRPM, l, octaves[i], want[i]+up, limit)
			}
		}
		if s.Kind != kindAxial || s.NoiseKind != "pressure" || s.NoiseDBA.Value < quietest-0.5 {
			t.Errorf("%s: octaves of a %s fan, %v dB(A) of %s", s.Part, s.Kind, s.NoiseDBA.Value, s.NoiseKind)
		}
	}
}

// In a family the spectrum moves up with the speed: 4 kHz gains on 125 Hz.
func TestOctavesMoveWithTheSpeed(t *testing.T) {
	compared := 0
	for name, fans := range families(heard(many())) {
		for _, b := range fans[1:] {
			a := fans[0]
			if a.Physics.SpeedRPM > b.Physics.SpeedRPM {
				a, b = b, a
			}
			if b.Physics.SpeedRPM < 1.2*a.Physics.SpeedRPM {
				continue
			}
			compared++
			slow, fast := a.OctavesDB[6].Value-a.OctavesDB[at125].Value, b.OctavesDB[6].Value-b.OctavesDB[at125].Value
			if fast <= slow {
				t.Errorf("%s: 4 kHz over 125 Hz is %.1f dB at %v rpm and %.1f at %v, want it to rise", name, slow, a.Physics.SpeedRPM, fast, b.Physics.SpeedRPM)
			}
		}
	}
	if compared < 20 {
		t.Errorf("%d pairs compared, want at least 20", compared)
	}
}

// The blade tone lies in the octave lifted: 7 blades at 6300 rpm make 735 Hz, in that of 500 Hz to 707 Hz and of 1 kHz from there; 5 at
// 1200 rpm make 100 Hz, in that of 125 Hz from 89 Hz.
func TestBladeToneLiftsItsOctave(t *testing.T) {
	for _, row := range []struct {
		rpm, blades float64
		octave      string
	}{{6300, 7, "1 kHz"}, {6000, 7, "500 Hz"}, {1200, 5, "125 Hz"}, {60, 7, ""}} {
		quiet, loud := typical.at(row.rpm, row.blades), voice{centre: typical.centre, steep: typical.steep, tone: 2}.at(row.rpm, row.blades)
		for i := range loud {
			want := 0.0
			if octaves[i] == row.octave {
				want = 2
			}
			if got := loud[i] - quiet[i]; math.Abs(got-want) > 1e-9 {
				t.Errorf("%v blades at %v rpm lift %s by %v dB, want %v", row.blades, row.rpm, octaves[i], got, want)
			}
		}
	}
}

// Most labels have no octaves, those of two makers some; one lacks the octave in the middle, which an import must warn of and no more.
func TestOctavesOfTheDemo(t *testing.T) {
	specs, all, account := demo(t)
	makers, gaps := map[string]int{}, 0
	for _, s := range heard(specs) {
		makers[s.Maker]++
		if s.OctavesDB[at63].Known != (s.Maker == "Wirbelhof") {
			t.Errorf("%s %s: %+v at 63 Hz, which Wirbelhof states and Nordwehe does not", s.Maker, s.Part, s.OctavesDB[at63])
		}
		if _, gap := stated(s); gap {
			gaps++
		}
	}
	if len(makers) != 2 || makers["Wirbelhof"] < 15 || makers["Nordwehe"] < 5 || len(heard(specs)) > DemoRows/10 || gaps != 1 {
		t.Errorf("fans with octaves by maker: %v, with a gap: %d, want two makers, under a tenth of %d fans, one gap", makers, gaps, DemoRows)
	}
	bad := map[int]bool{}
	for _, b := range account.Bad {
		bad[b.Line] = true
	}
	dashes := 0
	for _, r := range all[3:] {
		for _, name := range octaves {
			if cell := r.cell("Oktavpegel " + name + " [dB]"); cell == "-" && !bad[r.line] {
				dashes++
				if name != "500 Hz" || !strings.HasPrefix(r.cell("Typ / type"), "NW") {
					t.Errorf("line %d: no level at %s", r.line, name)
				}
			}
		}
	}
	if dashes != 1 {
		t.Errorf("%d octaves alone are missing, want 1", dashes)
	}
}
