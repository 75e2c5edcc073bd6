package partscsv

import (
	"math"

	"lowsone/catalog"
)

// tolerance is what follows a value: ±10 %, +10/-15 %, ±1.2 V.
type tolerance struct {
	minus, plus float64
	percent     bool
}

// takeTolerance cuts a tolerance out of the tokens.
func takeTolerance(tokens []token, c *cell) []token {
	for i, t := range tokens {
		end, tol := toleranceAt(tokens, i)
		if tol == nil {
			continue
		}
		if t.kind == tokOpen {
			end++
		}
		c.tolerance = tol
		return append(tokens[:i], tokens[end:]...)
	}
	return tokens
}

// toleranceAt reads a tolerance that begins at i, in brackets or not, and says
// where it ends; nil where there is none.
func toleranceAt(tokens []token, i int) (end int, tol *tolerance) {
	open := kindAt(tokens, i, tokOpen)
	if open {
		i++
	}
	t, end, ok := bareTolerance(tokens, i)
	if !ok {
		return 0, nil
	}
	if kindAt(tokens, end, tokPercent) {
		t.percent = true
		end++
	}
	if open && !kindAt(tokens, end, tokClose) {
		return 0, nil
	}
	t.minus, t.plus = math.Abs(t.minus), math.Abs(t.plus)
	return end, &t
}

func kindAt(tokens []token, i int, k tokenKind) bool { return i < len(tokens) && tokens[i].kind == k }

// bareTolerance reads "±10", "±1.2 V", "+10/-15", "+10 %/-15", "-15/+10", and
// with a percent sign behind it also "+10" or "-15" alone. end is where the
// percent sign would stand.
func bareTolerance(tokens []token, i int) (t tolerance, end int, ok bool) {
	is := func(j int, k tokenKind) bool { return kindAt(tokens, j, k) }
	switch {
	case is(i, tokTol) && is(i+1, tokNumber):
		end := i + 2
		if is(end, tokUnit) {
			end++
		}
		v := tokens[i+1].value
		return tolerance{minus: v, plus: v}, end, true
	case i == 0 || !is(i, tokPlus) && !is(i, tokDash) || !is(i+1, tokNumber):
		return t, 0, false
	}
	first, j := tokens[i+1].value, i+2
	if is(j, tokPercent) {
		j++
	}
	plus := is(i, tokPlus)
	if is(j, tokSlash) && is(j+1, tokNumber) && is(j+2, tokPercent) && (tokens[j+1].value < 0) == plus {
		return sidedTolerance(plus, first, tokens[j+1].value), j + 2, true
	}
	return sidedTolerance(plus, first, 0), i + 2, is(i+2, tokPercent)
}

// sidedTolerance puts the first number on its side and the other on the other.
func sidedTolerance(plus bool, first, other float64) tolerance {
	if plus {
		return tolerance{minus: other, plus: first}
	}
	return tolerance{minus: first, plus: other}
}

// String writes a tolerance as sheets do.
func (t *tolerance) String() string {
	unit := ""
	if t.percent {
		unit = " %"
	}
	if t.minus == t.plus {
		return "±" + catalog.Number(t.plus) + unit
	}
	return "+" + catalog.Number(t.plus) + "/-" + catalog.Number(t.minus) + unit
}
