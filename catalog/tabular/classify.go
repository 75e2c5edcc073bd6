package tabular

import "strings"

// proof is what one number says about the decimal mark.
type proof byte

const (
	provesNothing proof = iota
	provesComma
	provesPoint
	ambiguous // 1.500 or 1,500 may be a thousand and a half, or one and a half
)

// decimalProof is the proof that m is the decimal mark.
func decimalProof(m byte) proof {
	if m == ',' {
		return provesComma
	}
	return provesPoint
}

// classify judges a number that eachNumber found. Dates, versions and lists
// (12.03.2024, 1.2.3, 1,2,3) prove nothing.
func classify(token string) proof {
	last := strings.LastIndexAny(token, ".,")
	if last < 0 {
		return provesNothing
	}
	m, head, tail := token[last], token[:last], token[last+1:]
	marks := strings.Count(head, ".") + strings.Count(head, ",")
	same := strings.Count(head, string(m))
	spaced := strings.ContainsAny(head, " '")
	switch {
	case strings.ContainsAny(tail, " '"):
		return provesNothing
	case marks == 0 && spaced:
		return ifGrouped(head, " '", decimalProof(m))
	case marks == 0:
		return classifySingle(head, m, tail)
	case same == marks: // 1.234.567: the mark parts thousands
		return ifGrouped(token, string(m), decimalProof(byte(Mark(m).other())))
	case same == 0: // 1.234,5: the last mark is the decimal one
		return ifGrouped(head, string(byte(Mark(m).other())), decimalProof(m))
	}
	return provesNothing
}

// classifySingle judges a number with one mark and no other sign.
func classifySingle(head string, m byte, tail string) proof {
	if len(tail) == 3 && len(head) >= 1 && len(head) <= 3 && head[0] != '0' {
		return ambiguous
	}
	return decimalProof(m)
}

// ifGrouped returns p if all of text is digits grouped by three with one of the
// signs, the same everywhere.
func ifGrouped(text, signs string, p proof) proof {
	first, rest := text, ""
	if i := strings.IndexAny(text, signs); i >= 0 {
		first, rest = text[:i], text[i:]
	}
	if len(first) < 1 || len(first) > 3 || first[0] == '0' || !allDigits(first) {
		return provesNothing
	}
	for sign := rest; rest != ""; rest = rest[4:] {
		if len(rest) < 4 || rest[0] != sign[0] || !allDigits(rest[1:4]) {
			return provesNothing
		}
	}
	return p
}

func allDigits(text string) bool { return strings.Trim(text, "0123456789") == "" }
