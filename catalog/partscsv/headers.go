package partscsv

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Headers tells rows of headers from rows of data.
type Headers struct{ lexicon *lexicon }

// NewHeaders takes in the words of the trade.
func NewHeaders() *Headers { return &Headers{tables()} }

// Score says how much a row looks like the header of a parts table: what its
// cells name, less its numbers. It is 0 where fewer than two cells name a field.
func (h *Headers) Score(cells []string) float64 {
	score, named := 0.0, 0
	bands := h.bandsIn(cells)
	for i, text := range cells {
		s := h.cell(text)
		switch bands[i] {
		case bareBand:
			s = 0
		case namedBand:
			s = 1
		}
		if s > 0 {
			named++
		}
		score += s
	}
	if named < 2 {
		return 0
	}
	return max(0, score)
}

// bandCell is what a cell is in a row of band frequencies.
type bandCell uint8

const (
	noBand    bandCell = iota
	bareBand           // a number, which data may hold too
	namedBand          // one that only a header holds
)

// bandsIn finds headers that are band frequencies, although they are numbers: at
// least leastBands octaves or third octaves, each in the cell behind the one
// below it.
func (h *Headers) bandsIn(cells []string) []bandCell {
	in := make([]bandCell, len(cells))
	var run []bandHeader
	for i := 0; i <= len(cells); i++ {
		band, ok := bandHeader{}, false
		if i < len(cells) {
			band, ok = h.lexicon.bandHeader(cells[i], "")
		}
		if ok && follows(run, band) {
			run = append(run, band)
			continue
		}
		for j := range run {
			if len(run) >= leastBands {
				in[i-len(run)+j] = run[j].cell()
			}
		}
		run = run[:0]
		if ok {
			run = append(run, band)
		}
	}
	return in
}

// cell tells a bare number from more.
func (h *bandHeader) cell() bandCell {
	if h.sure() {
		return namedBand
	}
	return bareBand
}

// follows says whether a band goes on with a run of octaves or third octaves.
func follows(run []bandHeader, next bandHeader) bool {
	switch n := len(run); n {
	case 0:
		return true
	case 1:
		step := next.n - run[0].n
		return step == 1 || step == perOctave
	default:
		return next.n-run[n-1].n == run[1].n-run[0].n
	}
}

// cell scores one cell: own names and words that name a field high, words of
// several meanings and bare units low, numbers against it.
func (h *Headers) cell(text string) float64 {
	text = normalise(text)
	if text == "" || len(text) > 80 {
		return 0
	}
	if _, ok := catalog.FieldNamed(text); ok {
		return 4
	}
	if text[0] >= '0' && text[0] <= '9' {
		return -2
	}
	head := h.lexicon.parseHeader(text, "")
	best := 0.0
	for id := range catalog.NumFields {
		for _, w := range h.lexicon.words[id] {
			if s := weight(w.Strength, len(head.units) > 0); s > best && w.tokens.in(head.tokens) {
				best = s - float64(min(5, max(0, len(head.tokens)-len(w.tokens))))/10
			}
		}
	}
	if best == 0 && len(head.units) > 0 && len(head.conditions) == 0 {
		return 0.5
	}
	return best
}

func weight(s catalog.Strength, unit bool) float64 {
	switch {
	case s == catalog.Proof:
		return 2
	case s == catalog.Hint && unit:
		return 2
	case s == catalog.Hint, unit:
		return 1
	}
	return 0
}

// AreUnits says whether a row is a second line of headers that holds nothing
// but units, at least two of them.
func (h *Headers) AreUnits(cells []string) bool {
	units := 0
	for _, text := range cells {
		text = unwrapped(normalise(text))
		if text == "" || text == "-" {
			continue
		}
		if !h.isUnit(text) {
			return false
		}
		units++
	}
	return units >= 2
}

// unwrapped takes brackets off that enclose the whole text.
func unwrapped(text string) string {
	for _, pair := range [...]string{"[]", "()", "{}"} {
		if len(text) > 1 && text[0] == pair[0] && text[len(text)-1] == pair[1] {
			return strings.TrimSpace(text[1 : len(text)-1])
		}
	}
	return text
}

// isUnit says whether a text is a unit, or several, or a currency.
func (h *Headers) isUnit(text string) bool {
	if _, ok := currencyCode(text); ok {
		return true
	}
	for _, part := range strings.Split(text, "|") {
		units, size := h.lexicon.units.longest(strings.TrimSpace(part))
		if size != len(strings.TrimSpace(part)) || isOf(units, quantity.DimNone) {
			return false
		}
	}
	return true
}
