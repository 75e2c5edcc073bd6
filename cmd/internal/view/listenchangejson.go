package view

import (
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/recording"
)

// changeJSON is what changed from one recording to another.
type changeJSON struct {
	Basis    string               `json:"basis"`
	Premise  string               `json:"holds"`
	Level    Number               `json:"level_difference_db,omitzero"`
	Spread   Number               `json:"level_standard_deviation_db,omitzero"`
	Loudness *loudChangeJSON      `json:"loudness,omitempty"`
	Thirds   List[bandChangeJSON] `json:"third_octaves"`
	Tones    List[toneChangeJSON] `json:"tones"`
	Doubts   List[string]         `json:"doubts"`
}

type loudChangeJSON struct {
	Before Number `json:"before_sone"`
	After  Number `json:"after_sone"`
	Ratio  Number `json:"ratio,omitzero"`
}

type bandChangeJSON struct {
	Hz     Number `json:"hz"`
	By     Number `json:"difference_db,omitzero"`
	Spread Number `json:"standard_deviation_db,omitzero"`
}

type toneChangeJSON struct {
	Fate   string        `json:"tone"`
	Before *toneSideJSON `json:"before,omitempty"`
	After  *toneSideJSON `json:"after,omitempty"`
	By     Number        `json:"difference_db,omitzero"`
}

type toneSideJSON struct {
	Hz        Number `json:"hz"`
	TNR       Number `json:"tone_to_noise_db,omitzero"`
	PR        Number `json:"prominence_db,omitzero"`
	Prominent bool   `json:"prominent"`
}

func changeOf(c *recording.Comparison) *changeJSON {
	j := &changeJSON{
		Basis: c.Basis.String(), Premise: c.Basis.Premise(), Level: finite(float64(c.Level.By)), Spread: finite(float64(c.Level.Spread)), Doubts: c.Doubts,
	}
	if l, ok := c.Loudness.Get(); ok {
		j.Loudness = &loudChangeJSON{Number(l.Before), Number(l.After), finite(l.Ratio())}
	}
	for i, b := range c.Thirds {
		j.Thirds = append(j.Thirds, bandChangeJSON{Number(acoustics.ThirdNominal[i]), finite(float64(b.By)), finite(float64(b.Spread))})
	}
	for _, t := range c.Tones {
		j.Tones = append(j.Tones, toneChangeJSON{t.Fate.String(), sideOf(t.Before), sideOf(t.After), finite(float64(t.By))})
	}
	return j
}

func sideOf(t recording.Tone) *toneSideJSON {
	if t.Frequency == 0 {
		return nil
	}
	return &toneSideJSON{Number(t.Frequency), finite(float64(t.TNR)), finite(float64(t.PR)), t.Prominent}
}

// ratingJSON is a room's rating.
type ratingJSON struct {
	Name   string `json:"rating"`
	Value  Number `json:"value,omitzero"`
	Limit  string `json:"limit,omitempty"` // below or above: value is the end of the curves
	Octave Number `json:"octave_hz,omitzero"`
	Reason string `json:"not_known,omitempty"`
}

func ratingsJSON(ratings []Rating) List[ratingJSON] {
	var list List[ratingJSON]
	for _, r := range ratings {
		unknown := Number(math.NaN())
		j := ratingJSON{Name: r.Name, Value: Number(r.Value), Octave: unknown}
		switch {
		case r.Err != nil:
			j.Value, j.Reason = unknown, r.Err.Error()
		case r.Octave >= 0:
			j.Octave = Number(acoustics.OctaveNominal[r.Octave])
		}
		switch {
		case r.Limit == acoustics.Under:
			j.Limit = "below"
		case r.Limit == acoustics.Over:
			j.Limit = "above"
		}
		list = append(list, j)
	}
	return list
}
