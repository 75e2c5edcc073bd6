package partscsv

import (
	"math"

	"lowsone/catalog/quantity"
)

func hasInch(tokens []token) bool {
	for _, t := range tokens {
		if u, ok := ofDimension(t.units, quantity.DimLength); ok && u.Symbol == "inch" {
			return true
		}
	}
	return false
}

// takeFractions makes one number of "2 3/8" and "2-3/8".
func takeFractions(tokens []token) []token {
	kept := tokens[:0]
	for i := 0; i < len(tokens); i++ {
		if i+2 < len(tokens) && isFraction(tokens[i], tokens[i+1], tokens[i+2]) {
			f := tokens[i].value / tokens[i+2].value
			if n := len(kept); n > 0 && kept[n-1].kind == tokDash && n > 1 && whole(kept[n-2]) {
				kept = kept[:n-1]
			}
			if n := len(kept); n > 0 && whole(kept[n-1]) {
				kept[n-1].value += f
			} else {
				kept = append(kept, token{kind: tokNumber, text: tokens[i].text + "/" + tokens[i+2].text, value: f})
			}
			i += 2
			continue
		}
		kept = append(kept, tokens[i])
	}
	return kept
}

func whole(t token) bool {
	return t.kind == tokNumber && t.err == nil && t.value == math.Trunc(t.value) && t.value >= 0
}

// isFraction says whether three tokens are a fraction of an inch: halves down
// to sixty-fourths.
func isFraction(n, slash, d token) bool {
	if slash.kind != tokSlash || !whole(n) || !whole(d) || n.value >= d.value || n.value < 1 {
		return false
	}
	switch d.value {
	case 2, 4, 8, 16, 32, 64:
		return true
	}
	return false
}
