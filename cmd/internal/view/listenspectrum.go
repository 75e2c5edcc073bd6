package view

import (
	"fmt"
	"math"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// noted writes a table, and its notes broken to the width of the terminal.
func (p *printer) noted(t *Table) {
	bare := *t
	bare.Notes = nil
	p.table(&bare)
	for _, note := range t.Notes {
		for line := range strings.Lines(wrap(Clean(note), p.style.Width)) {
			p.line("%s", p.style.Faint(strings.TrimRight(line, "\n ")))
		}
	}
}

// wrap breaks a text to a width; 0 is none.
func wrap(said string, width int) string {
	if width < narrowest {
		return said
	}
	return wrapSoft(said, width)
}

// spectrum is the table of third octaves of a recording.
func (r *Recorded) spectrum() *Table {
	var levels acoustics.Thirds
	for i, l := range r.Analysis.Thirds {
		levels[i] = r.db(l)
	}
	return thirdsTable(&levels, r.reference(), "not known, the sampling rate does not reach so far")
}

// Bars of a spectrum: dB a block, and how many blocks there is room for.
const (
	barStep  = 2.0
	barWidth = 30
)

// thirdsTable shows a spectrum, its A-weighted levels as bars. missing says why a
// band is not known.
func thirdsTable(levels *acoustics.Thirds, reference, missing string) *Table {
	t := &Table{Columns: []Column{
		{Title: "third oct.", Unit: "Hz", Number: true},
		{Title: "level", Unit: "dB", Number: true},
		{Title: "weighted", Unit: "dB(A)", Number: true, Spare: 1},
		{Title: "", Spare: 2},
	}}
	weighted := weightedThirds(levels)
	floor := barFloor(weighted)
	unknown := false
	for i, l := range levels {
		unknown = unknown || math.IsNaN(l)
		t.Add(Trim(Fixed(acoustics.ThirdNominal[i], 1)), levelCell(l), levelCell(weighted[i]), bar(weighted[i]-floor))
	}
	t.Notes = append(t.Notes, fmt.Sprintf("level: unweighted%s; weighted: A, drawn as bars from %s dB(A) on, %s dB a block", reference, Fixed(floor, 0), Fixed(barStep, 0)))
	if unknown {
		t.Notes = append(t.Notes, Unknown+" "+missing)
	}
	return t
}

// weightedThirds gives the A-weighted levels of bands.
func weightedThirds(levels *acoustics.Thirds) *acoustics.Thirds {
	var weighted acoustics.Thirds
	for i, l := range levels {
		weighted[i] = l + float64(acoustics.AWeighting(quantity.Frequency(acoustics.ThirdHz(i))))
	}
	return &weighted
}

// barFloor gives the level at which bars begin so that the highest has room.
func barFloor(levels *acoustics.Thirds) float64 {
	most := math.Inf(-1)
	for _, l := range levels {
		if !math.IsNaN(l) {
			most = max(most, l)
		}
	}
	if math.IsInf(most, 0) {
		return 0
	}
	const round = 10
	return round*math.Ceil(most/round) - barWidth*barStep
}

// bar draws so many dB.
func bar(db float64) string {
	const parts = " ▏▎▍▌▋▊▉"
	if !(db > 0) {
		return ""
	}
	eighths := int(math.Round(8 * db / barStep))
	drawn := strings.Repeat("█", eighths/8)
	if rest := eighths % 8; rest > 0 {
		drawn += string([]rune(parts)[rest])
	}
	return drawn
}

// levelCell writes a level; a band without sound has none.
func levelCell(db float64) string {
	if math.IsInf(db, -1) {
		return "none"
	}
	return Fixed(db, 1)
}

// Hertzes writes mid-band frequencies.
func Hertzes(bands []quantity.Frequency) string {
	texts := make([]string, len(bands))
	for i, f := range bands {
		texts[i] = hertz(f)
	}
	return strings.Join(texts, ", ")
}

// hertz writes a mid-band frequency: 31.5 Hz, 1.25 kHz.
func hertz(f quantity.Frequency) string {
	if f >= 1000*quantity.Hertz {
		return Trim(Fixed(float64(f)/1000, 2)) + " kHz"
	}
	return Trim(Fixed(float64(f), 1)) + " Hz"
}
