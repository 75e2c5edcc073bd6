package view

import (
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/recording"
	"lowsone/match"
)

// The keys of listen. Levels stand under full_scale, in dB re full scale, and
// with a scale under sound_pressure, in dB re 20 µPa.
type listenJSON struct {
	Schema
	Recordings List[recordedJSON] `json:"recordings"`
	Change     *changeJSON        `json:"change,omitempty"`
	Field      string             `json:"field"`
	Meter      string             `json:"meter,omitempty"`
	MeterDiff  Number             `json:"meter_difference_half_width_db,omitzero"`
	Device     string             `json:"device,omitempty"`
	Fans       List[fanJSON]      `json:"fans"`
	Beats      List[beatJSON]     `json:"beats"`
	Open       List[string]       `json:"not_known"`
	Caution    string             `json:"caution,omitempty"`
}

type recordedJSON struct {
	File     string  `json:"file"`
	Rate     Number  `json:"sampling_rate_hz"`
	Channels int     `json:"channels"`
	Bits     int     `json:"bits"`
	Float    bool    `json:"float"`
	Duration Number  `json:"duration_s"`
	Shown    Number  `json:"shown_by_meter_db,omitzero"`
	ShownIn  string  `json:"shown_by_meter_unit,omitempty"`
	Scale    Number  `json:"full_scale_is_db,omitzero"` // sound pressure level of 0 dB re full scale
	ScaleOf  string  `json:"scale_from,omitempty"`
	MeterOff Number  `json:"meter_half_width_db,omitzero"`
	MaxAt    Number  `json:"max_at_s"`
	Start    Number  `json:"level_over_time_start_s"`
	Step     Number  `json:"level_over_time_step_s"`
	FS       setJSON `json:"full_scale"`
	// SP is there with a scale only.
	SP       *setJSON          `json:"sound_pressure,omitempty"`
	Loudness *patternJSON      `json:"loudness,omitempty"`
	NotLoud  string            `json:"loudness_not_known,omitempty"`
	Ratings  List[ratingJSON]  `json:"ratings"`
	Tones    List[toneJSON]    `json:"tones"`
	Series   List[seriesJSON]  `json:"series"`
	Each     List[channelJSON] `json:"each_channel"`
	Findings List[findingJSON] `json:"findings"`
}

// setJSON is the levels of a recording on one scale.
type setJSON struct {
	Equivalent Number          `json:"leq_dba,omitzero"`
	Max        Number          `json:"max_fast_dba,omitzero"`
	L10        Number          `json:"l10_dba,omitzero"`
	L50        Number          `json:"l50_dba,omitzero"`
	L90        Number          `json:"l90_dba,omitzero"`
	C          Number          `json:"c_dbc,omitzero"`
	Overall    Number          `json:"unweighted_db,omitzero"`
	OverTime   List[levelDBA]  `json:"level_over_time"`
	Thirds     List[thirdJSON] `json:"third_octaves"`
}

type levelDBA struct {
	Level Number `json:"leq_dba,omitzero"` // absent: silence
}

type thirdJSON struct {
	Hz     Number `json:"hz"`
	Level  Number `json:"unweighted_db,omitzero"`
	Silent bool   `json:"silent,omitempty"`
}

type toneJSON struct {
	Hz        Number `json:"hz"`
	FS        Number `json:"full_scale_db,omitzero"`
	SP        Number `json:"sound_pressure_db,omitzero"`
	TNR       Number `json:"tone_to_noise_db,omitzero"`
	PR        Number `json:"prominence_db,omitzero"`
	Prominent bool   `json:"prominent"`
	Series    int    `json:"series,omitempty"`
}

type seriesJSON struct {
	Number  int          `json:"series"`
	Hz      Number       `json:"hz"`
	Orders  List[int]    `json:"multiples"`
	Maker   string       `json:"made_by"`
	Fan     string       `json:"fan,omitempty"`
	Or      List[string] `json:"or_fan"`
	Blades  Number       `json:"blades,omitzero"`
	Guessed bool         `json:"blades_guessed"`
	Speed   Number       `json:"speed_rpm,omitzero"`
	Off     Number       `json:"speed_off_ratio,omitzero"`
}

var makerNames = [...]string{match.MadeByUnknown: "unknown", match.MadeByFan: "fan", match.MadeByMains: "mains"}

type channelJSON struct {
	Level   Number `json:"full_scale_leq_dba,omitzero"`
	Peak    Number `json:"peak_ratio"`
	Offset  Number `json:"offset_ratio"`
	Silent  bool   `json:"silent"`
	Clipped Number `json:"clipped_share"`
	Runs    int64  `json:"clipped_runs"`
}

type findingJSON struct {
	Kind     string `json:"finding"`
	Doubtful bool   `json:"levels_doubtful"`
	Text     string `json:"text"`
}

// JSON gives the object of the listen command.
func (d *Listen) JSON() any {
	j := listenJSON{Field: d.Field.String(), MeterDiff: Number(math.NaN())}
	for i := range d.Recordings {
		j.Recordings = append(j.Recordings, d.recordedJSON(&d.Recordings[i]))
	}
	if d.Change != nil {
		j.Change = changeOf(d.Change)
	}
	if d.Meter != 0 {
		j.Meter, j.MeterDiff = d.Meter.String(), Number(d.Meter.ChangeHalfWidth())
	}
	if d.Device != nil {
		j.Device, j.Fans, j.Beats, j.Caution = d.Device.File, d.Device.fansJSON(nil), beatsJSON(d.Beats, d.Device.Fans), Caution
		for _, f := range d.Device.open(d.Recordings[0].told(d.Device.Fans), nil) {
			j.Open = append(j.Open, f.says)
		}
	}
	return j
}

func (d *Listen) recordedJSON(r *Recorded) recordedJSON {
	a, unknown := r.Analysis, Number(math.NaN())
	j := recordedJSON{
		File: a.Name, Rate: Number(a.Format.Rate), Channels: a.Format.Channels, Bits: a.Format.Bits, Float: a.Format.Float,
		Duration: Number(a.Duration), Shown: unknown, Scale: unknown, MeterOff: unknown, MaxAt: Number(a.Level.MaxAt),
		Start: Number(a.Trace.Start), Step: Number(a.Trace.Step), FS: setOf(a, 0), NotLoud: r.NoLoudness, Ratings: ratingsJSON(r.Ratings),
	}
	if shown, ok := r.Shown.Get(); ok {
		j.Shown, j.ShownIn = Number(shown.DB), weightUnits[shown.Weight]
	}
	if r.Scaled != nil {
		scale := r.Scaled.Calibration()
		set := setOf(a, float64(scale.FullScale()))
		j.Scale, j.ScaleOf, j.SP = Number(scale.FullScale()), scale.From(), &set
		if d.Meter != 0 {
			j.MeterOff = Number(r.MeterOff)
		}
	}
	if r.Loudness != nil {
		j.Loudness = patternOf(r.Loudness)
	}
	d.addTones(&j, r)
	for _, c := range a.Channels {
		j.Each = append(j.Each, channelJSON{finite(c.Level.DB()), Number(c.Peak), Number(c.Offset), c.Silent, Number(c.Clipped.Share), c.Clipped.Runs})
	}
	for _, f := range a.Findings {
		j.Findings = append(j.Findings, findingJSON{f.Kind.String(), f.Kind.Doubtful(), f.Text})
	}
	return j
}

// addTones adds the tones of a recording and the series they are in.
func (d *Listen) addTones(j *recordedJSON, r *Recorded) {
	numbers := r.seriesNumbers()
	for i, t := range r.Analysis.Tones {
		tone := r.toneJSON(t)
		tone.Series = numbers[i]
		j.Tones = append(j.Tones, tone)
	}
	for n, s := range r.Series {
		j.Series = append(j.Series, d.seriesJSON(n+1, s))
	}
}

// setOf gives the levels of a recording raised by a scale.
func setOf(a *recording.Analysis, scale float64) setJSON {
	level := func(l recording.FullScale) Number { return finite(l.DB() + scale) }
	l := a.Level
	set := setJSON{
		Equivalent: level(l.Equivalent), Max: level(l.Max), L10: level(l.L10), L50: level(l.L50), L90: level(l.L90), C: level(a.C), Overall: level(a.Overall),
	}
	for _, s := range a.Trace.Levels {
		set.OverTime = append(set.OverTime, levelDBA{level(s)})
	}
	for i, b := range a.Thirds {
		set.Thirds = append(set.Thirds, bandOf(i, b.DB()+scale))
	}
	return set
}

func bandOf(i int, db float64) thirdJSON {
	return thirdJSON{Number(acoustics.ThirdNominal[i]), finite(db), math.IsInf(db, -1)}
}

func (r *Recorded) toneJSON(t recording.Tone) toneJSON {
	j := toneJSON{Hz: Number(t.Frequency), FS: finite(t.Level.DB()), SP: Number(math.NaN()), TNR: finite(float64(t.TNR)), PR: finite(float64(t.PR)), Prominent: t.Prominent}
	if r.Scaled != nil {
		j.SP = finite(r.db(t.Level))
	}
	return j
}

func (d *Listen) seriesJSON(number int, s Series) seriesJSON {
	j := seriesJSON{
		Number: number, Hz: Number(s.Hz), Orders: s.Orders, Maker: makerNames[s.Maker],
		Blades: Number(s.Blades), Guessed: s.Guessed, Speed: Number(60 * s.Turns), Off: Number(s.Off),
	}
	if s.Maker == match.MadeByFan {
		j.Fan = d.Device.Fans[s.Fan].Name
		for _, other := range s.Or {
			j.Or = append(j.Or, d.Device.Fans[other].Name)
		}
	}
	return j
}
