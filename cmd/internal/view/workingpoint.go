package view

import (
	"math"

	"lowsone/catalog"
	"lowsone/match"
)

// The working point of a fan in a device: its numbers for programs and the
// words for people. Package match counts in m³/s; everybody else in m³/h.

// perHour is the seconds of an hour: m³/s to m³/h.
const perHour = 3600

// pointJSON is a working point with its level.
type pointJSON struct {
	SpeedRatio Number `json:"speed_ratio,omitzero"`
	Flow       Number `json:"flow_m3h,omitzero"`
	Pressure   Number `json:"pressure_pa,omitzero"`
	QOverQMax  Number `json:"q_over_qmax,omitzero"`
	levelJSON
	loudnessJSON
	Tone      Number `json:"blade_tone_hz,omitzero"`
	LimitedBy string `json:"limited_by,omitempty"`
}

// levelJSON is a level at the listener.
type levelJSON struct {
	Level Number `json:"level_dba,omitzero"`
	// UpperBound: the level is this or lower.
	UpperBound bool `json:"level_is_upper_bound,omitempty"`
}

// unknownPoint is a working point of which nothing is known.
func unknownPoint() pointJSON {
	nan := Number(math.NaN())
	return pointJSON{SpeedRatio: nan, Flow: nan, Pressure: nan, QOverQMax: nan, levelJSON: levelJSON{Level: nan}, loudnessJSON: unheard(), Tone: nan}
}

// bare is a working point of which only flow and pressure are known.
func bare(q, p float64) pointJSON {
	j := unknownPoint()
	j.Flow, j.Pressure = Number(q*perHour), Number(p)
	return j
}

func pointOf(p match.Point) pointJSON {
	j := bare(p.Q, p.P)
	j.SpeedRatio, j.levelJSON = Number(p.Ratio), levelOf(p.Level)
	return j
}

func levelOf(l match.Level) levelJSON { return levelJSON{Number(l.DB), l.Under} }

// fieldNames gives the CSV names of fields.
func fieldNames(ids []catalog.FieldID) List[string] { return match.Names(ids) }

// titles gives the names of fields for people.
func titles(ids []catalog.FieldID) []string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = catalog.Fields[id].Title
	}
	return names
}

// flowText gives a flow in m³/s with its unit.
func flowText(q float64) string { return flowNumber(q) + " m³/h" }

func flowNumber(q float64) string { return Digits(q*perHour, 3) }

// pressureText gives a pressure in Pa with its unit.
func pressureText(p float64) string { return Digits(p, 3) + " Pa" }

// levelText gives a level with its unit.
func levelText(l match.Level) string { return levelNumber(l) + " dB(A)" }

func levelNumber(l match.Level) string {
	if l.Under {
		return "≤" + Fixed(l.DB, 1)
	}
	return Fixed(l.DB, 1)
}

// speedWords says how fast a fan turns against its label.
func speedWords(ratio float64) string {
	if math.Abs(ratio-1) < 5e-4 {
		return "at its label speed"
	}
	return "at " + Fixed(100*ratio, 0) + " % of its label speed"
}
