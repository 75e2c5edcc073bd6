package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/agnivade/levenshtein"
	"golang.org/x/text/unicode/norm"
)

// Fold brings a unit's spelling to one form: compatibility characters resolved
// (m³ to m3, H₂O to H2O), blanks and ^ dropped, dashes made one, lower case.
func Fold(spelling string) string {
	var b strings.Builder
	for _, r := range compatible(spelling) {
		switch r {
		case ' ', '\t', '\n', '^', '_', '\u00ad':
		case '−', '–', '‐', '‑', '⁻':
			b.WriteByte('-')
		case '″', '”', '“':
			b.WriteByte('"')
		case '·', '∙', '⋅':
		default:
			b.WriteRune(r)
		}
	}
	return strings.ToLower(b.String())
}

// compatible resolves compatibility characters; the ordinal sign º, which many
// type for a degree, must not become the letter it is compatible with.
func compatible(text string) string { return norm.NFKC.String(strings.ReplaceAll(text, "º", "°")) }

// ParseError says why a text is not a quantity. Hint, where not empty, names
// the mend.
type ParseError struct {
	Dimension Dimension
	Text      string
	Reason    string
	Hint      string
}

// Error prints the reason, without the hint.
func (e *ParseError) Error() string {
	return fmt.Sprintf("%s %q: %s", e.Dimension, e.Text, e.Reason)
}

// Parse reads one clean quantity, a number and a unit ("20m3/h", "12 CFM"),
// into SI. The decimal mark is a point. A bare number is in the unit bare.
// NaN and infinities are refused. Errors are *ParseError.
func Parse(text string, bare Unit) (float64, error) {
	fail := func(reason, hint string) (float64, error) {
		return 0, &ParseError{bare.Dimension, text, reason, hint}
	}
	number, unit := split(compatible(text))
	if number == "" {
		return fail("no number in it", example(bare))
	}
	if strings.Contains(number, ",") {
		return fail("a comma in a number", "write the decimal mark as a point: "+strings.ReplaceAll(number, ",", "."))
	}
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return fail("not a number", example(bare))
	}
	u := bare
	if unit != "" {
		var ok bool
		if u, ok = UnitOf(bare.Dimension, unit); !ok {
			return fail(fmt.Sprintf("unit %q is not one of %s", unit, strings.Join(Symbols(bare.Dimension), ", ")), nearestUnit(bare.Dimension, unit))
		}
	}
	if v = u.ToSI(v); math.IsInf(v, 0) {
		return fail("too large a number", "")
	}
	return v, nil
}

// ParseAs is Parse for a defined quantity type.
func ParseAs[T ~float64](text string, bare Unit) (T, error) {
	v, err := Parse(text, bare)
	return T(v), err
}

// split cuts a leading number from the unit behind it.
func split(text string) (number, unit string) {
	text = strings.TrimSpace(text)
	i := 0
	for i < len(text) {
		c := text[i]
		digit := c >= '0' && c <= '9' || c == '.' || c == ','
		sign := (c == '-' || c == '+') && (i == 0 || text[i-1] == 'e' || text[i-1] == 'E')
		exponent := (c == 'e' || c == 'E') && i > 0 && i+1 < len(text) && strings.IndexByte("+-0123456789", text[i+1]) >= 0
		if !digit && !sign && !exponent {
			break
		}
		i++
	}
	return text[:i], strings.TrimSpace(text[i:])
}

func example(u Unit) string {
	if u.Symbol == "" {
		return "write a number such as 3"
	}
	return "write a number and a unit, such as 12" + u.Symbol
}

func nearestUnit(d Dimension, spelling string) string {
	best, distance := "", 3
	for _, s := range Symbols(d) {
		if n := levenshtein.ComputeDistance(Fold(spelling), Fold(s)); n < distance {
			best, distance = s, n
		}
	}
	if best == "" {
		return ""
	}
	return "did you mean " + best + "?"
}
