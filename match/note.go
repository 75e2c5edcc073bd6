package match

import (
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// note is the reason behind a verdict, put into words only when it is read, so
// that checking a row makes no garbage: in format each # stands for the next
// of a, b, c, each ¤ for s, then t.
type note struct {
	format  string
	a, b, c float64
	s, t    string
	asks    Question
}

// String puts the note into words.
func (n note) String() string {
	var out strings.Builder
	numbers, texts := []float64{n.a, n.b, n.c}, []string{n.s, n.t}
	for _, r := range n.format {
		switch {
		case r == '#' && len(numbers) > 0:
			out.WriteString(Plain(numbers[0]))
			numbers = numbers[1:]
		case r == '¤' && len(texts) > 0:
			out.WriteString(texts[0])
			texts = texts[1:]
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
}

// Plain writes a number with at most four significant digits.
func Plain(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return catalog.Number(v)
	}
	scale := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(v))))
	if math.Abs(v) >= 1000 {
		scale = 1 // whole numbers from there on: speeds
	}
	return catalog.Number(math.Round(v*scale) / scale)
}

// orNaN gives a known value as a plain number, else NaN.
func orNaN[T ~float64](k quantity.Known[T]) float64 {
	if v, ok := k.Get(); ok {
		return float64(v)
	}
	return math.NaN()
}
