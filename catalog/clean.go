package catalog

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/agnivade/levenshtein"

	"lowsone/catalog/quantity"
)

// ValueError says why a text or a number is no value of a field. Hint, where
// not empty, names the mend.
type ValueError struct {
	Field  string
	Text   string
	Reason string
	Hint   string
}

// Error prints the reason, without the hint.
func (e *ValueError) Error() string { return fmt.Sprintf("%s %q: %s", e.Field, e.Text, e.Reason) }

// Parse reads a clean text, as the tool's own CSV and FIELD=VALUE hold it:
// point decimals, a bare number in the unit of the field's name, or a number
// with a unit. The value is checked against the field's bounds. Errors are
// *ValueError.
func (d *Field) Parse(text string) (Value, error) {
	text = strings.TrimSpace(text)
	v, err := d.parse(text)
	if err != nil {
		return Value{}, err
	}
	if d.Numeric() {
		if reason, hint := d.Bound(v.Number); reason != "" {
			return Value{}, &ValueError{d.Name, text, reason, hint}
		}
	}
	return v, nil
}

func (d *Field) parse(text string) (Value, error) {
	if text == "" {
		return Value{}, &ValueError{d.Name, text, "nothing stands there", ""}
	}
	switch d.Form {
	case Text:
		return Value{Text: text}, nil
	case Choice:
		return d.parseChoice(text)
	case Points:
		curve, err := ParseCurve(text)
		return Value{Curve: curve}, err
	case Bands:
		bands, err := ParseBands(text)
		return Value{Bands: bands}, err
	default:
		return d.parseNumber(text)
	}
}

func (d *Field) parseChoice(text string) (Value, error) {
	i := slices.Index(d.Choices, strings.ToLower(text))
	if i < 0 {
		return Value{}, &ValueError{d.Name, text, "not one of " + strings.Join(d.Choices, ", "), Nearest(strings.ToLower(text), d.Choices)}
	}
	return Value{Number: float64(i + 1)}, nil
}

func (d *Field) parseNumber(text string) (Value, error) {
	unit := d.Unit
	if d.Form != Quantity {
		unit = quantity.PreferredUnit(quantity.DimNone)
	}
	v, err := quantity.Parse(text, unit)
	if err != nil {
		pe := err.(*quantity.ParseError)
		return Value{}, &ValueError{d.Name, text, pe.Reason, pe.Hint}
	}
	if d.Form == Count && v != math.Trunc(v) {
		return Value{}, &ValueError{d.Name, text, "not a whole number", ""}
	}
	return Value{Number: v}, nil
}

// Bound says why the SI value v cannot be a value of the field; empty where it
// can. The hint names what usually stands behind such a value.
func (d *Field) Bound(v float64) (reason, hint string) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "not a number", ""
	}
	if d.Low == 0 && d.High == 0 {
		return "", ""
	}
	u := d.InUnit(v)
	// An allowance of one part in 10⁹ keeps a bound itself valid after a unit conversion.
	if slack := 1e-9 * math.Abs(u); u >= d.Low-slack && u <= d.High+slack {
		return "", ""
	}
	shown := Number(u)
	if math.Abs(u) >= 1e12 {
		shown = fmt.Sprintf("%.3g", u) // nobody counts the digits
	}
	reason = strings.TrimSpace(shown+" "+d.Unit.Symbol) +
		fmt.Sprintf(" is outside the possible %s to %s", Number(d.Low), Number(d.High))
	switch {
	case u == 0:
		hint = "leave the cell empty where the value is unknown"
	case d.ID == FieldNoise && u > 0 && u < d.Low:
		hint = "a level so low may be in bels: name the unit B in the header or the cell"
	case d.Form == Quantity:
		hint = "check the unit of the column"
	}
	return reason, hint
}

// Format writes the field's value as the tool's own CSV holds it; empty where
// unknown. Numbers carry up to ten significant digits.
func (d *Field) Format(f *Fan) string {
	v, origin := d.Get(f)
	if origin == quantity.Unknown {
		return ""
	}
	switch d.Form {
	case Text:
		return v.Text
	case Choice:
		return d.Choices[int(v.Number)-1]
	case Points:
		return FormatCurve(v.Curve)
	case Bands:
		return FormatBands(v.Bands)
	default:
		return Number(d.InUnit(v.Number))
	}
}

// Number writes v plainly with up to ten significant digits, never with an
// exponent.
func Number(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 9, 64), 64)
	if err != nil {
		return ""
	}
	if rounded == 0 {
		return "0" // also for -0
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// ParseCurve reads curve points "0:42;10:35;22:0", flow in m³/h and pressure
// in Pa. Errors are *ValueError.
func ParseCurve(text string) ([]CurvePoint, error) {
	fail := func(reason string) ([]CurvePoint, error) {
		return nil, &ValueError{Fields[FieldCurve].Name, text, reason, `write flow in m³/h and pressure in Pa as pairs, such as "0:42;10:35;22:0"`}
	}
	var curve []CurvePoint
	for pair := range strings.SplitSeq(text, ";") {
		if pair = strings.TrimSpace(pair); pair == "" {
			continue
		}
		left, right, ok := strings.Cut(pair, ":")
		q, errQ := strconv.ParseFloat(strings.TrimSpace(left), 64)
		p, errP := strconv.ParseFloat(strings.TrimSpace(right), 64)
		if !ok || errQ != nil || errP != nil {
			return fail(fmt.Sprintf("%q is no pair of numbers", pair))
		}
		curve = append(curve, CurvePoint{quantity.Flow(q) * quantity.CubicMetrePerHour, quantity.Pressure(p)})
	}
	if reason := curveFault(curve); reason != "" {
		return fail(reason)
	}
	return curve, nil
}

// curveFault says why points are no fan curve; empty where they are one.
func curveFault(curve []CurvePoint) string {
	if len(curve) < 2 {
		return "a curve needs two points or more"
	}
	high := 0.0
	for i, c := range curve {
		q, p := float64(c.Flow/quantity.CubicMetrePerHour), float64(c.Pressure)
		if math.IsNaN(q) || math.IsInf(q, 0) || math.IsNaN(p) || math.IsInf(p, 0) || q < 0 || p < 0 {
			return fmt.Sprintf("point %d (%v:%v) is not a flow and a pressure", i+1, q, p)
		}
		if i > 0 && c.Flow <= curve[i-1].Flow {
			return fmt.Sprintf("the flow does not rise from point %d to point %d", i, i+1)
		}
		high = math.Max(high, p)
	}
	if high == 0 {
		return "no point has a pressure above 0"
	}
	return ""
}

// FormatCurve writes curve points as ParseCurve reads them.
func FormatCurve(curve []CurvePoint) string {
	var b strings.Builder
	for i, c := range curve {
		if i > 0 {
			b.WriteByte(';')
		}
		b.WriteString(Number(float64(c.Flow / quantity.CubicMetrePerHour)))
		b.WriteByte(':')
		b.WriteString(Number(float64(c.Pressure)))
	}
	return b.String()
}

// Nearest gives a hint that names the valid word nearest to the given one, or
// nothing where none is near.
func Nearest(given string, valid []string) string {
	best := NearestWords(given, valid, 1)
	if len(best) == 0 {
		return ""
	}
	return fmt.Sprintf("did you mean %s?", best[0])
}

// NearestWords lists up to n of the valid words that are spelled nearly as the
// given one, the nearest first.
func NearestWords(given string, valid []string, n int) []string {
	type near struct {
		word  string
		steps int
	}
	var list []near
	for _, v := range valid {
		if steps := levenshtein.ComputeDistance(given, v); steps < 1+len(given)/2 {
			list = append(list, near{v, steps})
		}
	}
	slices.SortStableFunc(list, func(a, b near) int { return cmp.Compare(a.steps, b.steps) })
	var words []string
	for _, l := range list[:min(n, len(list))] {
		words = append(words, l.word)
	}
	return words
}
