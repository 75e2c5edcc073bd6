package view

import (
	"fmt"
	"io"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/acoustics/recording"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// Listen is what one recording tells, or two: before and after.
type Listen struct {
	Recordings []Recorded
	Change     *recording.Comparison // of two
	Field      loudness.Field
	Meter      acoustics.Meter // zero: not said
	Device     *FansTurning    // nil without a device file
	Beats      []Beat          // of its fans, at the speeds that the first recording tells
}

// Recorded is one recording. Everything below Analysis but Series hangs on a
// scale.
type Recorded struct {
	Analysis *recording.Analysis
	Series   []Series // its tones

	Scaled     *recording.Calibrated // nil: levels are re full scale
	Shown      quantity.Known[Shown] // by a meter beside this recording
	Loudness   *loudness.Pattern     // nil where not known
	NoLoudness string                // why, where there is a scale
	Ratings    []Rating
	MeterOff   float64 // how far the level may be off, dB; NaN not known
}

// Weight is how a level is weighted.
type Weight uint8

// The weightings.
const (
	WeightA Weight = iota
	WeightC
	WeightZ // unweighted
)

var weightUnits = [...]string{"dB(A)", "dB(C)", "dB"}

// Shown is a level that a meter showed.
type Shown struct {
	DB     float64
	Weight Weight
}

// Series is a series of tones. Or lists other fans that may make it as well.
type Series struct {
	match.Series
	Or []int
}

// Rating is a room's rating with its name.
type Rating struct {
	Name string
	acoustics.Rating
	Err error // why there is none
}

// FansTurning are fans as they turn now.
type FansTurning struct {
	File      string        // device file; empty for fans of flags
	Device    *match.Device // nil for those
	NotLooked string        // why fans were not looked up in the catalogue; empty where they were
	Fans      []match.Turning
}

// db gives a level in dB re 20 µPa where there is a scale, else re full scale.
func (r *Recorded) db(l recording.FullScale) float64 {
	if r.Scaled == nil {
		return l.DB()
	}
	return l.DB() + float64(r.Scaled.Calibration().FullScale())
}

// reference is what stands behind the unit of a level without a scale.
func (r *Recorded) reference() string {
	if r.Scaled == nil {
		return " re full scale"
	}
	return ""
}

// Text writes it for people.
func (d *Listen) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	if d.Change != nil {
		d.changeText(p)
	} else {
		d.oneText(p)
	}
	if d.Device != nil {
		p.caution()
	}
	return p.err
}

// oneText tells of one recording.
func (d *Listen) oneText(p *printer) {
	r := &d.Recordings[0]
	var f facts
	f.add("recording", r.what())
	f.add("scale", d.scale())
	f = append(f, r.findings()...)
	f = append(f, r.levels()...)
	f = append(f, d.loudness(r)...)
	if d.Meter != 0 {
		f.add("meter", d.meterWords(r))
	}
	p.facts(f)
	p.line("")
	p.noted(r.spectrum())
	d.tonesText(p, r)
}

func (r *Recorded) what() string {
	return fmt.Sprintf("%s: %v, %s s", r.Analysis.Name, r.Analysis.Format, Trim(Digits(float64(r.Analysis.Duration), 3)))
}

// scale says what levels mean.
func (d *Listen) scale() string {
	r := &d.Recordings[0]
	shown, ok := r.Shown.Get()
	if !ok {
		return "none, levels are re full scale: good only for differences between recordings of one gain. Note what a meter or a phone shows on average while you record, and give it: --level 52dBA; then there are dB(A) and sone"
	}
	return fmt.Sprintf("by a meter that showed %s %s while it was recorded", Trim(Fixed(shown.DB, 1)), weightUnits[shown.Weight])
}

// findings tell what spoils the recording, then what limits it.
func (r *Recorded) findings() facts {
	var bad, rest facts
	for _, f := range r.Analysis.Findings {
		switch {
		case f.Kind == recording.Jumps:
			bad.add("!", f.Text+"; --from and --to choose a part")
		case f.Kind.Doubtful():
			bad.add("!", f.Text)
		default:
			rest.add("note", f.Text)
		}
	}
	return append(bad, rest...)
}

func (d *Listen) meterWords(r *Recorded) string {
	if r.Scaled == nil {
		return ""
	}
	said := fmt.Sprintf("%v: the level may be ±%s dB off", d.Meter, Fixed(r.MeterOff, 1))
	if r.MeterOff != r.MeterOff {
		said = d.unknownMeter(r)
	}
	return said + fmt.Sprintf(", a difference of two levels by the same meter in the same place ±%s dB; see its own noise, which should lie 10 dB below", Fixed(float64(d.Meter.ChangeHalfWidth()), 0))
}

// unknownMeter says why it is not known how far a meter may be off.
func (d *Listen) unknownMeter(r *Recorded) string {
	if d.Meter == acoustics.Phone {
		return fmt.Sprintf("%v: how far its level may be off is not known, for phones were tested from 65 to 95 dB(A)", d.Meter)
	}
	return fmt.Sprintf("%v: how far its level may be off is not known, for bands are missing", d.Meter)
}
