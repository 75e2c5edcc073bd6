package match

import (
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Loudness is how loud a fan is at the listener, by ISO 532-1 in a free field.
// Members that are not known are NaN.
type Loudness struct {
	Sone      float64
	Low, High float64 // sone: what the typical spectra of its kind span; both Sone where it was measured
	Phon      float64 // of Sone
	Measured  bool    // from band levels of this fan; else a typical spectrum: an estimate
	Spectrum  string  // what the spectrum is
	Added     float64 // sone that the fan adds to what the room has without it
}

func silent() Loudness {
	nan := math.NaN()
	return Loudness{Sone: nan, Low: nan, High: nan, Phon: nan, Added: nan}
}

// spectrum is what is known of the spectrum of a fan: its own, or several
// typical of its kind, the first of them the middle one.
type spectrum struct {
	shapes   []acoustics.Shape
	ratio    float64 // speed ratio they are of
	measured bool
}

// spectrumOf gives the spectrum of row i of cols: measured band levels where it
// has some, else what is typical of the kind at its rated speed.
func spectrumOf(cols *catalog.Columns, i int, r *rated) spectrum {
	if bands := cols.Bands(i); len(bands) > 0 {
		if read, err := acoustics.ReadBands(bands, acoustics.Unweighted); err == nil {
			return spectrum{[]acoustics.Shape{{Name: "band levels of its row", Thirds: read.Thirds}}, 1, true}
		}
	}
	turns := quantity.Known[quantity.Speed]{}
	if r.turns > 0 {
		turns = quantity.Stated(quantity.Speed(r.turns))
	}
	return spectrum{acoustics.AppendTypical(nil, wheelOf(r.kind), turns), 1, false}
}

// spectrumFitted gives the spectrum of the fitted fan: as measured on its seat,
// else as its row has it.
func (p *problem) spectrumFitted() spectrum {
	if r := p.req.Path.Reading; r != nil && r.Bands != nil && !r.After && p.known.hasAir {
		return spectrum{[]acoustics.Shape{{Name: "band levels measured at the fan", Thirds: *r.Bands}}, p.known.system.Ratio, true}
	}
	return spectrumOf(catalog.ColumnsOf(p.req.Path.Fitted), 0, &p.known.fitted)
}

// smallFan is how much of the loudness of a typical spectrum a small fan may
// have: those are of ventilation fans, and the one small fan at hand, a hair
// dryer, has a quarter less (sound_dba_vs_sone.csv).
const smallFan = 0.75

// loud gives the loudness of a fan with that spectrum at a speed ratio, level
// dB(A) at the listener.
func (p *problem) loud(s spectrum, ratio, level float64) Loudness {
	out := silent()
	if math.IsNaN(level) || len(s.shapes) == 0 {
		return out
	}
	out.Measured, out.Spectrum = s.measured, s.shapes[0].Name
	for i := range s.shapes {
		moved, _ := s.shapes[i].Thirds.AtSpeed(ratio / s.ratio)
		at := moved.ScaledTo(quantity.PressureLevel(level))
		sone := loudness.Sone(&at, loudness.Free)
		if i == 0 {
			out.Sone, out.Low, out.High, out.Phon = sone, sone, sone, loudness.Phon(sone)
			if room, ok := p.room(); ok {
				out.Added = loudness.Added(&at, &room, loudness.Free)
			}
		}
		out.Low, out.High = math.Min(out.Low, sone), math.Max(out.High, sone)
	}
	if !s.measured {
		out.Low = math.Min(out.Low, smallFan*out.Sone)
	}
	return out
}

// room gives the spectrum of the room without the device: as measured, else what
// is typical of its level.
func (p *problem) room() (acoustics.Thirds, bool) {
	if p.req.RoomBands != nil {
		return *p.req.RoomBands, true
	}
	level, ok := p.req.Room.Get()
	if !ok {
		return acoustics.Thirds{}, false
	}
	return acoustics.QuietRoom(level), true
}

// loudnessOf gives the loudness of a contender as it is planned.
func (p *problem) loudnessOf(c *contender) Loudness {
	return p.loud(p.spectrumFor(c), c.planned, c.planLevel.DB)
}

func (p *problem) spectrumFor(c *contender) spectrum {
	if c.fitted() {
		return p.spectrumFitted()
	}
	return spectrumOf(c.cols, c.at, &c.rated)
}

// bandsApart is how far the sum of the levels by band of a row may lie from its
// label, in dB: the tolerance of a label (common practice).
const bandsApart = 3.0

// bandsNote says where the levels by band of a fan's row do not add up to the level
// that it states; empty where they do, or one of both is not there. A label of sound
// power may stand beside bands of sound pressure.
func bandsNote(c *contender) string {
	label, sum := c.cols.Number(catalog.FieldNoise, c.at), levelOfBands(c.cols.Bands(c.at))
	apart := math.Abs(sum - label)
	if c.rated.power {
		apart = math.Min(apart, math.Abs(sum+float64(quantity.PowerOverPressure)-label))
	}
	if !(apart > bandsApart) {
		return ""
	}
	return fmt.Sprintf("its levels by band add up to %.1f dB(A), its label says %s: one of them is wrong. How loud it is is told by the label, how it sounds by the bands", sum, Plain(label))
}

// baseline gives the fitted fan as it was found, with its loudness.
func (p *problem) baseline() Baseline {
	b := p.known.baseline(p.task.offset)
	b.Loud = silent()
	if b.HasLevel {
		b.Loud = p.loud(p.spectrumFitted(), b.Ratio, b.Level.DB)
	}
	b.Tone = toneAt(bladesOf(catalog.ColumnsOf(b.Fan), 0), p.known.fitted.turns*b.Ratio, p.req.Others)
	return b
}
