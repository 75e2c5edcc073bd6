package match

import (
	"context"
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Tone is the blade tone of a fan at one speed, and the fan of the device whose
// blade tone lies nearest to it.
type Tone struct {
	Hz     float64 // NaN where blades or speed are not known
	Beside string  // the other fan; empty where none is known
	Beat   float64 // Hz between the two blade tones, NaN where none is known
	Heard  acoustics.Hearing
	Sure   bool // the speed of the other fan was measured
	// Apart and Distinct are the differences of speed, in 1/s, from which on nothing
	// swells or fluctuates, and from which on two tones are heard; NaN as Beat.
	Apart, Distinct float64
}

// Beats says whether the two blade tones are heard to swell, fluctuate or be
// rough together.
func (t *Tone) Beats() bool {
	return t.Beside != "" && t.Heard != acoustics.AsOne && t.Heard != acoustics.Apart
}

// Note says so in words; empty where they do not.
func (t *Tone) Note() string {
	if !t.Beats() {
		return ""
	}
	lies := "may lie"
	if t.Sure {
		lies = "lies"
	}
	return fmt.Sprintf("its blade tone of %.0f Hz %s %s Hz beside that of %s: heard as %s. Over %s rpm apart nothing swells, over %s rpm they are two tones; or both regulated to one speed",
		t.Hz, lies, Plain(t.Beat), t.Beside, t.Heard, Plain(60*t.Apart), Plain(60*t.Distinct))
}

// Turning is a fan that turns in a device. What is not known is NaN.
type Turning struct {
	Path     int // in Device.Paths
	Name     string
	Blades   float64
	Turns    float64 // 1/s
	Measured bool    // the speed was measured; else it follows from label and supply
}

// Hz gives its blade tone; NaN where blades or speed are not known.
func (t *Turning) Hz() float64 {
	return float64(acoustics.BladeTone(t.Blades, quantity.Speed(t.Turns)))
}

// bladesOf gives the number of blades of row i; NaN unknown.
func bladesOf(cols *catalog.Columns, i int) float64 { return cols.Number(catalog.FieldBlades, i) }

// toneAt gives the blade tone at a speed in 1/s beside those of other fans.
func toneAt(blades, turns float64, others []Turning) Tone {
	t := Tone{Hz: float64(acoustics.BladeTone(blades, quantity.Speed(turns))), Beat: math.NaN(), Apart: math.NaN(), Distinct: math.NaN()}
	for i := range others {
		f, g := quantity.Frequency(t.Hz), quantity.Frequency(others[i].Hz())
		beat := float64(acoustics.Beat(f, g))
		if beat < t.Beat || math.IsNaN(t.Beat) && !math.IsNaN(beat) {
			steady, distinct := acoustics.SpeedsApart(blades, quantity.Speed(turns))
			t.Beat, t.Beside, t.Heard, t.Sure = beat, others[i].Name, acoustics.HowHeard(f, g), others[i].Measured
			t.Apart, t.Distinct = float64(steady), float64(distinct)
		}
	}
	return t
}

// toneOf gives the blade tone of a contender as it is planned.
func (p *problem) toneOf(c *contender) Tone {
	return toneAt(bladesOf(c.cols, c.at), c.rated.turns*c.planned, p.req.Others)
}

// Turning gives the fans of all paths as they turn now. The error is that of the
// context.
func (d *Device) Turning(ctx context.Context, fans catalog.Fans) ([]Turning, error) {
	var out []Turning
	for i := range d.Paths {
		p := &d.Paths[i]
		t := Turning{
			Path: i, Name: d.PathName(i), Blades: bladesOf(catalog.ColumnsOf(p.Fitted), 0), Turns: orNaN(p.SpeedNow.Turns),
			Measured: p.SpeedNow.Turns.Known() || p.SpeedNow.Ratio.Known(),
		}
		k, err := know(ctx, fans, *p, false)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err == nil { // else the resistance is not known, the speed may be
			t.Turns = k.fitted.turns * k.system.Ratio
		}
		out = append(out, t)
	}
	return out, nil
}
