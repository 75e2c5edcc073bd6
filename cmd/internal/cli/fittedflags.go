package cli

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

// fittedFlags say which fan the device has now, and how fast it ran while the
// device was measured.
type fittedFlags struct {
	replace string
	values  []fieldSetting
	speed   match.Speed
}

// fieldSetting is one FIELD=VALUE.
type fieldSetting struct {
	field *catalog.Field
	value catalog.Value
}

func (f *fittedFlags) register(flags *pflag.FlagSet) {
	flags.StringVar(&f.replace, "replace", "", "fitted fan, from the catalogue: `PART` or MAKER/PART")
	flags.Var(newParsed("FIELD=VALUE", f.readField), "fitted", "a value of the fitted fan, such as airflow_m3h=40; repeat it for more; overrules the catalogue")
	flags.Var(newParsed("SPEED", f.readSpeed), "replace-speed", "speed of the fitted fan while measured: 3375rpm, or 75% of its label")
}

func (f *fittedFlags) readField(text string) error {
	name, value, ok := strings.Cut(text, "=")
	if !ok {
		return usagef("write FIELD=VALUE, such as airflow_m3h=40", "%q has no =", text)
	}
	field, err := fieldNamed(strings.TrimSpace(name), catalog.FieldNames())
	if err != nil {
		return err
	}
	if slices.ContainsFunc(f.values, func(s fieldSetting) bool { return s.field.ID == field.ID }) {
		return usagef("give each field once", "%s is given twice", field.Name)
	}
	v, err := parseField(field, value)
	if err != nil {
		return err
	}
	if field.Form == catalog.Bands {
		if _, err := acoustics.ReadBands(v.Bands, acoustics.Unweighted); err != nil {
			return usagef("give octaves from 125 Hz to 4 kHz at least, or third octaves from 100 Hz to 8 kHz, unweighted", "%v", err)
		}
	}
	f.values = append(f.values, fieldSetting{field, v})
	return nil
}

func (f *fittedFlags) readSpeed(text string) error {
	share, turns, err := shareOr[quantity.Speed](text, speedBounds())
	f.speed = match.Speed{Ratio: share, Turns: turns}
	return err
}

// shareOr reads a share of a speed written with %, else a speed. A bare number that
// may be a percentage is asked back.
func shareOr[T ~float64](text string, b bounds) (share quantity.Known[float64], value quantity.Known[T], err error) {
	if strings.HasSuffix(strings.TrimSpace(text), "%") {
		v, err := readShare(text)
		return quantity.Stated(v), value, err
	}
	if bare, unread := quantity.Parse(text, quantity.PreferredUnit(quantity.DimNone)); unread == nil && bare > 0 && bare <= 100*mostShare {
		number, percent := strings.TrimSpace(text), bare
		if bare <= 1 {
			percent = 100 * bare
		}
		return share, value, usagef(fmt.Sprintf("write %.4g%% for a share, or %s%s", percent, number, b.unit.Symbol), "%q may be a share or a speed", text)
	}
	v, err := b.parse(text)
	if err != nil {
		return share, value, err
	}
	return share, quantity.Stated(T(v)), nil
}

// readShare reads "60%", or 60 meaning the same, as 0.6.
func readShare(text string) (float64, error) {
	number, marked := strings.CutSuffix(strings.TrimSpace(text), "%")
	v, err := quantity.Parse(number, quantity.PreferredUnit(quantity.DimNone))
	switch {
	case err != nil:
		return 0, err
	case v <= 0:
		return 0, usagef("write a share such as 60%", "%q is not above 0", text)
	case v > 100*mostShare:
		return 0, usagef("", "%q is over %d %%", text, 100*mostShare)
	case v <= 1 && !marked:
		return 0, usagef(fmt.Sprintf("write %g%%, or %s%% if you mean so little", 100*v, number), "%q may be a share or a percentage", text)
	}
	return v / 100, nil
}

// fan gives the fitted fan, described or from the catalogue, and its row in the catalogue, with what has to be
// said about it.
func (f *fittedFlags) fan(ctx context.Context, cat *store.Catalogue) (fan *catalog.Fan, row int, remarks []string, err error) {
	fan, row = &catalog.Fan{Part: view.Described}, match.NotInCatalogue
	if f.replace != "" {
		if row, fan, err = onePart(ctx, cat, "--replace", f.replace); err != nil {
			return nil, 0, nil, err
		}
	}
	return f.overrule(fan), row, f.remarks(fan), nil
}

// overrule gives a copy of the fan with the values that were given. Airflow or
// pressure given take the place of a curve from the catalogue.
func (f *fittedFlags) overrule(fan *catalog.Fan) *catalog.Fan {
	out := *fan
	if f.dropsCurve() {
		out.Curve = nil
	}
	for _, s := range f.values {
		s.field.Put(&out, s.value, quantity.Cell)
	}
	if out.Width.Known() && !out.Height.Known() {
		out.Height = out.Width
	}
	out.FillFromCurve()
	fillFromBands(&out)
	return &out
}

// fillFromBands sets the level where none is stated: the A-weighted sum of the
// bands.
func fillFromBands(fan *catalog.Fan) {
	if fan.Noise.Known() || len(fan.NoiseBands) == 0 {
		return
	}
	if read, err := acoustics.ReadBands(fan.NoiseBands, acoustics.Unweighted); err == nil {
		fan.Noise = quantity.Stated(quantity.Decibel(read.Thirds.A().DB()))
	}
}

func (f *fittedFlags) dropsCurve() bool {
	has := func(id catalog.FieldID) bool {
		return slices.ContainsFunc(f.values, func(s fieldSetting) bool { return s.field.ID == id })
	}
	return (has(catalog.FieldAirflow) || has(catalog.FieldStaticPressure)) && !has(catalog.FieldCurve)
}

func (f *fittedFlags) remarks(fan *catalog.Fan) []string {
	var said []string
	if twice := listedTwice(fan); twice != "" {
		said = append(said, twice)
	}
	if f.replace != "" && f.dropsCurve() && len(fan.Curve) > 0 {
		said = append(said, fmt.Sprintf("the curve of %s in the catalogue is not used: --fitted gives its ends", fan.Name()))
	}
	return said
}
