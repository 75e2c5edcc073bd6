package partscsv

import (
	"regexp"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// bandHeader is the header of a column that may hold the levels of one band.
type bandHeader struct {
	n     int    // the band lies at 10^(n/10) Hz
	hertz bool   // Hz or kHz is said
	plain bool   // nothing but the frequency, and words of noise and bands, stands there
	label string // what stands beside the frequency; the same for columns of one spectrum
	kind  catalog.NoiseKind
	said  weighting
}

// weighting is what is said of the weighting of levels.
type weighting uint8

const (
	weightUnsaid weighting = iota
	weightNone
	weightA
)

// sure says whether the header alone tells that a level in a band is meant.
func (h *bandHeader) sure() bool { return h.hertz || h.label != "" }

var (
	// bandNumber is a number with its kilo and hertz: "63", "31,5 Hz", "1'000 Hz", "8k".
	bandNumber = regexp.MustCompile(`(?i)(\d{1,3}(?:[ '.,]\d{3})+|\d+(?:[.,]\d+)?) ?[\[(]? ?(k?hz|k)?\b[\])]?`)
	// notBand are numbers that belong to something else: the width of the bands,
	// what levels are relative to, a distance.
	notBand = regexp.MustCompile(`(?i)\b1 ?/ ?[13]\b|\bref?\.? ?:? ?[\d.^-]+ ?[µμup]?(pa|w)\b|(@|\b(in|at|à|a|bei)\b)? ?\b\d+([.,]\d+)? ?c?m\b`)
)

// longestBandHeader is more bytes than the header of a band has.
const longestBandHeader = 60

// bandHeader takes the header of a column for that of a band; ok is false where
// no mid-band frequency stands in it, or more than one number.
func (x *lexicon) bandHeader(text, second string) (h bandHeader, ok bool) {
	if unnamed(text) || len(text) > longestBandHeader || !hasDigit(text) {
		return h, false
	}
	text = withoutCount(text)
	if second != "" {
		text += " [" + second + "]"
	}
	text = notBand.ReplaceAllString(strings.ReplaceAll(normalise(text), "_", " "), " ")
	found := bandNumber.FindAllStringSubmatchIndex(text, -1)
	if len(found) != 1 {
		return h, false
	}
	at := found[0]
	suffix := ""
	if at[4] >= 0 {
		suffix = strings.ToLower(text[at[4]:at[5]])
	}
	h.hertz = strings.HasSuffix(suffix, "hz")
	if h.n, ok = bandNamed(text[at[2]:at[3]], strings.HasPrefix(suffix, "k")); !ok {
		return h, false
	}
	rest := x.parseHeader(text[:at[0]]+" "+text[at[1]:], "")
	h.plain = x.besideBand(&rest)
	h.hertz = h.hertz || isOf(unitsIn(&rest), quantity.DimFrequency)
	h.label = strings.Join(rest.tokens, " ")
	group, _, _ := x.choices[catalog.FieldNoiseKind].find(rest.tokens)
	h.kind, h.said = catalog.NoiseKind(group+1), x.headerWeight(&rest)
	return h, true
}

// bandNamed gives the band of a number, in Hz or kHz. A sign before three digits
// parts thousands or is the decimal mark, whichever names a band.
func bandNamed(number string, kilo bool) (n int, ok bool) {
	whole := strings.NewReplacer(" ", "", "'", "", ".", "", ",", "").Replace(number)
	for _, text := range [...]string{strings.Replace(number, ",", ".", 1), whole} {
		hz, err := strconv.ParseFloat(text, 64)
		if err != nil {
			continue
		}
		if kilo {
			hz *= 1000
		}
		if n, ok = bandOf(hz); ok {
			return n, true
		}
	}
	return 0, false
}

// besideBand says whether a header without its frequency says nothing but that
// levels in bands are meant.
func (x *lexicon) besideBand(h *header) bool {
	for _, t := range h.tokens {
		if !x.bandSide[t] && !x.fill[t] {
			return false
		}
	}
	for _, u := range h.units {
		if !isOf(u.units, quantity.DimLevel) && !isOf(u.units, quantity.DimFrequency) && u.spelling != letterA {
			return false
		}
	}
	return h.currency == "" && h.product == ""
}

// letterA stands for ampere, but not where levels are meant: "ponderado A",
// "Lw(A)".
const letterA = "a"

// headerWeight tells what a header says of the weighting of its levels.
func (x *lexicon) headerWeight(h *header) weighting {
	switch group, _, _ := x.weightings.find(h.tokens); group {
	case 0:
		return weightA
	case 1:
		return weightNone
	}
	for _, u := range h.units {
		if isOf(u.units, quantity.DimLevel) && saysA(u.spelling) || u.spelling == letterA {
			return weightA
		}
	}
	return weightUnsaid
}

// saysA says whether a unit of level names the A-weighting: dB(A), dBA.
func saysA(unit string) bool {
	return strings.ContainsAny(unit, "aA") // no unweighted one is spelled with it
}

// unitsIn gives all units of a header.
func unitsIn(h *header) (list []quantity.Unit) {
	for _, u := range h.units {
		list = append(list, u.units...)
	}
	return list
}
