package recording

import (
	"regexp"
	"strings"
)

// weight is how the words of a table say that its levels are weighted.
type weight uint8

const (
	weightUnsaid weight = iota
	weightZ
	weightA
	weightC
)

var weightNames = [...]string{"not stated", "unweighted", "A-weighted", "C-weighted"}

// stat is how the words of a table say that its levels came about in time.
type stat uint8

const (
	statUnsaid stat = iota
	statMean
	statMax
	statMin
	statPeak
	statShare // exceeded for a share of the time, such as L90
	statPower // no pressure at all
)

var statNames = [...]string{"not stated", "equivalent level", "maximum", "minimum", "peak", "level exceeded for a share of the time", "sound power level"}

// label is what words say about levels.
type label struct {
	weight weight
	stat   stat
}

// Words for weightings and kinds of level. L with a subscript is written as in
// LAeq, LZF, LpA, LAFmax; a bare LA needs its capitals, since "la" is an article.
var (
	levelSymbol = regexp.MustCompile(`(?i)\bL_?p?([ACZ])_?(?:[FSI]|eq|max|min|p(?:ea)?k)+[,.0-9a-z]*\b`)
	bareSymbol  = regexp.MustCompile(`\bLp?([ACZ])\b`)
	behindUnit  = regexp.MustCompile(`(?i:\bdB\s*[(\[]\s*)([ACZacz]|(?i:lin))\b|(?i:\bdB)\s?([ACZ])\b|\bdb([acz])\b`)
	adjective   = regexp.MustCompile(`(?i)\b([ACZ])[- ](?:weight|bewert|ponder|pondér|gewicht)`)
	noun        = regexp.MustCompile(`(?i)\b(?:weighting|bewertung|pondération|ponderation|ponderación|ponderacion)\s*[:=;,]?\s*"?([ACZ]|lin|none|flat)\b`)
	wordsZ      = regexp.MustCompile(`(?i)\b(?:unweighted|unbewertet|linear|flat|lin)\b`)
	powerSymbol = regexp.MustCompile(`\bL[Ww](?:[ (]?([ACZ])\b|\b|_)`)
	powerWords  = regexp.MustCompile(`(?i)sound[ -]?power|schall?leistung|puissance (?:acoustique|sonore)|potencia (?:acústica|acustica|sonora)`)
	statMeans   = regexp.MustCompile(`(?i)(?:L[ACZ]?_?p?eq|\beq\b|\bleq|average|\bavg\b|\bmean\b|mittel|moyen|medio|promedio)`)
	statMaxima  = regexp.MustCompile(`(?i)max`)
	statMinima  = regexp.MustCompile(`(?i)(?:[ACZFSI ]|\b)min(?:imum|ima)?\b`)
	statPeaks   = regexp.MustCompile(`(?i)(?:peak|\bL[ACZ]pk\b)`)
	statShares  = regexp.MustCompile(`(?i)\bL[ACZ]?[FSI]?_?(?:[1-9][0-9]?|[1-9][0-9]?[.,][0-9])\s*%?(?:\b|$)`)
)

// labelOf reads what words say about levels. A frequency among them is to be
// taken out before.
func labelOf(text string) label {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "L_", "L"), "_", " ")
	return label{weightOf(text), statOf(text)}
}

func weightOf(text string) weight {
	return firstWeight(text, levelSymbol, bareSymbol, powerSymbol, behindUnit, adjective, noun, wordsZ)
}

// titleWeight reads the weighting in titles, where other things are told too: an
// LA may be a name, and linear a way of averaging.
func titleWeight(text string) weight { return firstWeight(text, behindUnit, adjective, noun) }

func firstWeight(text string, patterns ...*regexp.Regexp) weight {
	for _, pattern := range patterns {
		m := pattern.FindStringSubmatch(text)
		if m == nil || strings.Join(m[1:], "") == "" && pattern == powerSymbol {
			continue
		}
		switch strings.ToLower(strings.Join(m[1:], "")) {
		case "a":
			return weightA
		case "c":
			return weightC
		}
		return weightZ
	}
	return weightUnsaid
}

func statOf(text string) stat {
	switch {
	case isPower(text):
		return statPower
	case statPeaks.MatchString(text):
		return statPeak
	case statMaxima.MatchString(text):
		return statMax
	case statMinima.MatchString(text):
		return statMin
	case statMeans.MatchString(text):
		return statMean
	case statShares.MatchString(text):
		return statShare
	}
	return statUnsaid
}

// isPower says whether words are about sound power.
func isPower(text string) bool { return powerSymbol.MatchString(text) || powerWords.MatchString(text) }

// and joins what two places say about the same levels. clash says that they
// contradict each other.
func (l label) and(m label) (both label, clash bool) {
	both = l
	if both.weight == weightUnsaid {
		both.weight = m.weight
	}
	if both.stat == statUnsaid {
		both.stat = m.stat
	}
	return both, m.weight != weightUnsaid && both.weight != m.weight || m.stat != statUnsaid && both.stat != m.stat
}

// String tells a label in words.
func (l label) String() string {
	switch {
	case l == label{}:
		return "levels of no stated kind"
	case l.stat == statUnsaid:
		return weightNames[l.weight] + " levels"
	case l.weight == weightUnsaid:
		return statNames[l.stat]
	}
	return statNames[l.stat] + ", " + weightNames[l.weight]
}

// rank orders labels by how well they serve: steady levels before extremes,
// unweighted before A-weighted.
func (l label) rank() int {
	stats := [...]int{statMean: 0, statUnsaid: 1, statShare: 2, statMax: 3, statMin: 4, statPeak: 5, statPower: 6}
	weights := [...]int{weightZ: 0, weightA: 1, weightUnsaid: 2, weightC: 3}
	return stats[l.stat]*len(weights) + weights[l.weight]
}

// Words of headers.
var (
	frequencyWords = regexp.MustCompile(`(?i)\b(?:freq|hz|khz|band|frekvens|fréq|terz|oktav|octave|third)`)
	levelWords     = regexp.MustCompile(`(?i)(?:\bdb|level|pegel|niveau|nivel|livello|\bspl\b|\bL[ACZ]?p?(?:[FSI]|eq)|\bLp\b|\bleq)`)
)

// beginsWithDigit says that a cell is a value with its unit rather than a header.
func beginsWithDigit(cell string) bool {
	cell = strings.TrimSpace(cell)
	return cell != "" && (cell[0] >= '0' && cell[0] <= '9' || cell[0] == '-' || cell[0] == '+')
}

func isFrequencyWord(cell string) bool {
	return !beginsWithDigit(cell) && frequencyWords.MatchString(strings.ReplaceAll(cell, "_", " "))
}

func isLevelWord(cell string) bool {
	return !beginsWithDigit(cell) && levelWords.MatchString(strings.ReplaceAll(cell, "_", " "))
}
