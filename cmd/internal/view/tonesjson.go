package view

import (
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// The keys of tones.
type tonesJSON struct {
	Schema
	Device  string         `json:"device,omitempty"`
	Fans    List[fanJSON]  `json:"fans"`
	Beats   List[beatJSON] `json:"beats"`
	Hums    List[humJSON]  `json:"hums"`
	Open    List[string]   `json:"not_known"`
	Caution string         `json:"caution"`
}

type fanJSON struct {
	Name     string             `json:"fan"`
	Speed    Number             `json:"speed_rpm,omitzero"`
	Measured bool               `json:"speed_measured"`
	Blades   Number             `json:"blades,omitzero"`
	Several  int                `json:"equal_fans,omitempty"`
	Tones    List[harmonicJSON] `json:"tones"`
}

type harmonicJSON struct {
	Order int    `json:"multiple"`
	Hz    Number `json:"hz"`
	Third Number `json:"third_octave_hz,omitzero"`
}

type beatJSON struct {
	Low      beatToneJSON `json:"lower"`
	High     beatToneJSON `json:"higher"`
	Beat     Number       `json:"beat_hz"`
	Heard    string       `json:"heard_as"`
	Unsure   bool         `json:"speeds_not_measured"`
	Steady   Number       `json:"lower_rough_at_most_from_rpm,omitzero"`
	Distinct Number       `json:"lower_apart_from_rpm,omitzero"`
	OneSpeed bool         `json:"one_speed_ends_it"`
}

type beatToneJSON struct {
	Fan   string `json:"fan"`
	Order int    `json:"multiple"`
	Hz    Number `json:"hz"`
}

type humJSON struct {
	Fan   string `json:"fan"`
	Mains Number `json:"mains_hz,omitzero"`
	Hz    Number `json:"hz,omitzero"`
}

// JSON gives the object of the tones command.
func (d *Tones) JSON() any {
	j := tonesJSON{Device: d.Turning.File, Fans: d.Turning.fansJSON(d.Shown), Beats: beatsJSON(d.Beats, d.Turning.Fans), Caution: Caution}
	for _, h := range d.Hums {
		j.Hums = append(j.Hums, humJSON{d.Turning.Fans[h.Fan].Name, Number(h.Mains), Number(2 * h.Mains)})
	}
	for _, f := range d.Turning.open(nil, d.Shown) {
		j.Open = append(j.Open, f.says)
	}
	return j
}

// fansJSON gives the fans that are shown, all for nil.
func (t *FansTurning) fansJSON(shown []int) List[fanJSON] {
	var list List[fanJSON]
	for i := range t.Fans {
		if shown != nil && !slices.Contains(shown, i) {
			continue
		}
		fan := &t.Fans[i]
		j := fanJSON{Name: fan.Name, Speed: Number(60 * fan.Turns), Measured: fan.Measured, Blades: Number(fan.Blades)}
		if t.Device != nil {
			if n := t.Device.Paths[fan.Path].Fans; n > 1 {
				j.Several = n
			}
		}
		for _, h := range acoustics.Harmonics(quantity.Frequency(fan.Hz()), mostHarmonics) {
			j.Tones = append(j.Tones, harmonicJSON{h.Order, Number(h.Frequency), thirdNumber(h.Third)})
		}
		list = append(list, j)
	}
	return list
}

func thirdNumber(i int) Number {
	if i < 0 {
		return Number(math.NaN())
	}
	return Number(acoustics.ThirdNominal[i])
}

func beatsJSON(beats []Beat, fans []match.Turning) List[beatJSON] {
	var list List[beatJSON]
	side := func(t BeatTone) beatToneJSON { return beatToneJSON{fans[t.Fan].Name, t.Order, Number(t.Hz)} }
	for i := range beats {
		b := &beats[i]
		some := func(turns float64) Number {
			if turns == 0 || b.Unsure {
				return Number(math.NaN())
			}
			return Number(60 * turns)
		}
		list = append(list, beatJSON{side(b.Low), side(b.High), Number(b.Beat), b.Heard.String(), b.Unsure, some(b.Steady), some(b.Distinct), b.OneSpeed})
	}
	return list
}

// CSV lists the tones of the fans that are shown.
func (d *Tones) CSV(w io.Writer) error {
	rows := [][]string{{"fan", "speed_rpm", "speed_measured", "blades", "multiple", "hz", "third_octave_hz"}}
	for _, i := range d.Shown {
		fan := &d.Turning.Fans[i]
		for _, h := range d.harmonics(i) {
			rows = append(rows, []string{
				catalog.Guarded(fan.Name), number(60 * fan.Turns), strconv.FormatBool(fan.Measured), number(fan.Blades),
				strconv.Itoa(h.Order), number(float64(h.Frequency)), number(float64(thirdNumber(h.Third))),
			})
		}
	}
	return csv.NewWriter(w).WriteAll(rows)
}
