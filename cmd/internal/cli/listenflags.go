package cli

import (
	"strings"

	"github.com/spf13/pflag"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
)

// Names of choices, by their values.
var (
	fieldNames  = []string{loudness.Free: "free", loudness.Diffuse: "diffuse"}
	weightNames = []string{acoustics.Unweighted: "none", acoustics.AWeighted: "A"}
)

// registerField registers how the sound comes to the listener.
func registerField(flags *pflag.FlagSet, field *loudness.Field) {
	flags.Var(newChoice(field, fieldNames), "field", "how the sound arrives: free, from the front (the default), or diffuse, from all sides as in a hard room")
}

// readWeighting reads how levels by band are weighted.
func readWeighting(text string) (quantity.Known[acoustics.Weighting], error) {
	for w, name := range weightNames {
		if strings.EqualFold(text, name) {
			return quantity.Stated(acoustics.Weighting(w)), nil
		}
	}
	return quantity.Known[acoustics.Weighting]{}, usagef("A-weighted levels have dB(A) behind them or in their header", "not one of %s", strings.Join(weightNames, ", "))
}

// meterNames are those of flags; the first is acoustics.Class1.
var meterNames = []string{"class_1", "class_2", "phone"}

func readMeter(text string) (acoustics.Meter, error) {
	var m acoustics.Meter
	if err := newChoice(&m, meterNames).Set(text); err != nil {
		return 0, err
	}
	return m + acoustics.Class1, nil
}

// endings of levels that are not A-weighted, folded.
var shownEndings = []struct {
	weight view.Weight
	ends   []string
}{
	{view.WeightC, []string{"db(c)", "dbc", "db-c", "db[c]"}},
	{view.WeightZ, []string{"db(z)", "dbz", "db-z", "db[z]"}},
}

// readShown reads what a meter showed: 52dBA, 60dBC or 61dBZ; a bare number is
// in dB(A).
func readShown(text string) (quantity.Known[view.Shown], error) {
	shown, number := view.Shown{}, text
	for _, e := range shownEndings {
		for _, end := range e.ends {
			if bare, ok := strings.CutSuffix(quantity.Fold(text), end); ok {
				shown.Weight, number = e.weight, bare
			}
		}
	}
	db, err := roomBounds().parse(number)
	shown.DB = db
	if err != nil && hintOf(err) != "" {
		return quantity.Stated(shown), usagef("write what it showed with its weighting: 52dBA, 60dBC or 61dBZ", "%w", err)
	}
	return quantity.Stated(shown), err
}

// secondBounds are those of a time in a recording, in s.
func secondBounds() bounds {
	s, _ := quantity.UnitOf(quantity.DimTime, "s")
	return bounds{s, 0, 1e6}
}

func readSeconds(text string) (quantity.Time, error) {
	v, err := secondBounds().parse(text)
	return quantity.Time(v), err
}

// readEnd reads where a part ends, which cannot be at the beginning.
func readEnd(text string) (quantity.Time, error) {
	end, err := readSeconds(text)
	if err == nil && end == 0 {
		return 0, usagef("leave it out for the end of the recording", "a part that ends at 0 s is empty")
	}
	return end, err
}
