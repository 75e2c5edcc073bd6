package view

import (
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
)

// The keys of loudness.
type bandLoudnessJSON struct {
	Schema
	File      string           `json:"file,omitempty"`
	Width     string           `json:"bands"`
	Weighting string           `json:"weighting_given"`
	Missing   List[Number]     `json:"bands_missing_hz"`
	Notes     List[string]     `json:"notes"`
	Shown     Number           `json:"scaled_to_dba,omitzero"`
	Field     string           `json:"field"`
	A         Number           `json:"level_dba,omitzero"`
	C         Number           `json:"level_dbc,omitzero"`
	Overall   Number           `json:"level_unweighted_db,omitzero"`
	Loudness  *patternJSON     `json:"loudness"`
	Halving   Number           `json:"half_as_loud_db_less,omitzero"`
	Ratings   List[ratingJSON] `json:"ratings"`
	Thirds    List[thirdJSON]  `json:"third_octaves"`
	Room      *roomJSON        `json:"room,omitempty"`
}

// patternJSON is a loudness with where in pitch it lies.
type patternJSON struct {
	Sone     Number           `json:"sone"`
	Phon     Number           `json:"loudness_level_phon"`
	Regions  List[regionJSON] `json:"regions"`
	Specific List[Number]     `json:"specific_sone_per_bark"` // every 0.1 Bark from 0.1 to 24
}

type regionJSON struct {
	From  Number `json:"from_bark"`
	To    Number `json:"to_bark"`
	Low   Number `json:"from_third_octave_hz"`
	High  Number `json:"to_third_octave_hz"`
	Share Number `json:"share"`
}

func patternOf(p *loudness.Pattern) *patternJSON {
	j := &patternJSON{Sone: Number(p.Sone), Phon: Number(p.Phon)}
	for i, share := range p.Shares() {
		r := loudness.RegionAt(i)
		j.Regions = append(j.Regions, regionJSON{Number(r.From), Number(r.To), Number(r.Low), Number(r.High), Number(share)})
	}
	for _, s := range p.Specific {
		j.Specific = append(j.Specific, Number(s))
	}
	return j
}

type roomJSON struct {
	File      string          `json:"file,omitempty"`
	Typical   bool            `json:"typical_spectrum"`
	Notes     List[string]    `json:"notes"`
	A         Number          `json:"level_dba,omitzero"`
	Sone      Number          `json:"sone"`
	Alone     Number          `json:"without_room_dba,omitzero"`
	AloneSone Number          `json:"without_room_sone"`
	AtMost    List[Number]    `json:"upper_bounds_hz"`
	Drowned   List[Number]    `json:"not_above_room_hz"`
	Added     Number          `json:"sone_above_room"`
	Thirds    List[thirdJSON] `json:"third_octaves"`
}

// JSON gives the object of the loudness command.
func (d *BandLoudness) JSON() any {
	given := d.given()
	j := bandLoudnessJSON{
		File: d.File, Width: d.Width.String(), Weighting: "none", Notes: d.Notes, Shown: Number(math.NaN()), Field: d.Field.String(),
		Missing: hertzNumbers(append(d.Low[:len(d.Low):len(d.Low)], d.High...)),
		A:       finite(d.Thirds.A().DB()), C: finite(float64(d.Thirds.C())), Overall: finite(float64(d.Thirds.Overall())),
		Loudness: patternOf(&d.Pattern), Halving: finite(d.Halving), Ratings: ratingsJSON(d.Ratings), Thirds: bandsJSON(&given),
	}
	if d.Weighting == acoustics.AWeighted {
		j.Weighting = "A"
	}
	if level, ok := d.Level.Get(); ok {
		j.Shown = Number(level.DB())
	}
	if r := d.Room; r != nil {
		j.Room = &roomJSON{
			File: r.File, Typical: r.File == "", Notes: r.Notes, A: finite(r.Thirds.A().DB()), Sone: Number(r.Sone),
			Alone: finite(r.Alone.A().DB()), AloneSone: Number(r.AloneSone), AtMost: thirdNumbers(r.AtMost), Drowned: thirdNumbers(r.Drowned),
			Added: Number(r.Added), Thirds: bandsJSON(&r.Thirds),
		}
	}
	return j
}

func bandsJSON(thirds *acoustics.Thirds) List[thirdJSON] {
	var list List[thirdJSON]
	for i, l := range thirds {
		list = append(list, bandOf(i, l))
	}
	return list
}

func hertzNumbers(bands []quantity.Frequency) List[Number] {
	var list List[Number]
	for _, f := range bands {
		list = append(list, Number(f))
	}
	return list
}

func thirdNumbers(thirds []int) List[Number] {
	var list List[Number]
	for _, i := range thirds {
		list = append(list, Number(acoustics.ThirdNominal[i]))
	}
	return list
}
