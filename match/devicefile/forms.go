package devicefile

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// longestText is how many characters a text may have.
const longestText = 200

func textLeaf[S any](name, about, example string, at func(*S) *placed[string]) entry {
	return leaf(name, about, example, form{kind: formText}, parseText, at)
}

func parseText(text string) (string, error) {
	if n := len([]rune(text)); n > longestText {
		return "", &fault{fmt.Sprintf("has %d characters, at most %d", n, longestText), ""}
	}
	return text, nil
}

// choiceLeaf reads one of names, the first of which stands for the value first.
func choiceLeaf[S any, E ~uint8](name, about string, names []string, first E, at func(*S) *placed[E]) entry {
	parse := func(text string) (E, error) {
		i, err := oneOf(text, names)
		return first + E(i), err
	}
	return leaf(name, about, names[0], form{kind: formChoice, words: names}, parse, at)
}

func oneOf(text string, names []string) (int, error) {
	i := slices.Index(names, text)
	if i < 0 {
		return 0, &fault{quoted(text) + " is not one of " + listed(names), catalog.Nearest(text, names)}
	}
	return i, nil
}

// listed joins names, in quotes where a comma in one of them would look like the
// end of it.
func listed(names []string) string {
	if !slices.ContainsFunc(names, func(name string) bool { return strings.Contains(name, ",") }) {
		return strings.Join(names, ", ")
	}
	all := make([]string, len(names))
	for i, name := range names {
		all[i] = strconv.Quote(name)
	}
	return strings.Join(all, "; ")
}

// mended names the mend where the parser of a leaf has none.
func mended[T any](parse func(string) (T, error), hint string) func(string) (T, error) {
	return func(text string) (T, error) {
		v, err := parse(text)
		if f := (*fault)(nil); errors.As(err, &f) && f.hint == "" {
			err = &fault{f.reason, hint}
		}
		return v, err
	}
}

func yesLeaf[S any](name, about, example string, at func(*S) *placed[bool]) entry {
	return leaf(name, about, example, form{kind: formYesNo}, parseYes, at)
}

func parseYes(text string) (bool, error) {
	switch text {
	case "yes", "true":
		return true, nil
	case "no", "false":
		return false, nil
	}
	return false, &fault{quoted(text) + " is neither yes nor no", ""}
}

// amountLeaf reads a quantity between low and high, in the unit of the symbol.
func amountLeaf[S any, Q ~float64](name, about, example, symbol string, low, high float64, at func(*S) *placed[Q]) entry {
	f := form{kind: formQuantity, symbol: symbol, low: low, high: high}
	parse := func(text string) (Q, error) {
		v, err := parseAmount(text, quantity.UnitsSpelled(symbol)[0], low, high)
		return Q(v), err
	}
	return leaf(name, about, example, f, parse, at)
}

// heatLeaf reads a temperature.
func heatLeaf[S any](name, about, example string, low, high float64, at func(*S) *placed[quantity.Temperature]) entry {
	f := form{kind: formQuantity, symbol: "°C", low: low, high: high}
	parse := func(text string) (quantity.Temperature, error) {
		v, err := parseAmount(text, quantity.PreferredUnit(quantity.DimTemperature), low, high)
		return quantity.Celsius(v), err
	}
	return leaf(name, about, example, f, parse, at)
}

// loudestLevel in dB(A) is the most that a level can be; below 0 there is none of
// a room or a device either.
const loudestLevel = 140

// levelLeaf reads a sound pressure level.
func levelLeaf[S any](name, about, example string, at func(*S) *placed[quantity.SoundPressureLevel]) entry {
	f := form{kind: formQuantity, symbol: "dB(A)", low: 0, high: loudestLevel}
	parse := func(text string) (quantity.SoundPressureLevel, error) {
		v, err := parseAmount(text, quantity.PreferredUnit(quantity.DimLevel), 0, loudestLevel)
		return quantity.PressureLevel(v), err
	}
	return leaf(name, about, example, f, parse, at)
}

// parseAmount reads a number with its unit into SI, within bounds in the given
// unit, which messages name.
func parseAmount(text string, unit quantity.Unit, low, high float64) (float64, error) {
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return 0, &fault{quoted(text) + " has no unit", "write the unit: " + text + " " + unit.Symbol}
	}
	v, err := quantity.Parse(text, unit)
	if err != nil {
		return 0, err
	}
	return v, within(text, unit.FromSI(v), low, high, unit.Symbol)
}

// within refuses a number outside its bounds, with a slack for conversions.
func within(text string, v, low, high float64, symbol string) error {
	slack := 1e-9 * math.Max(math.Abs(low), math.Abs(high))
	if v >= low-slack && v <= high+slack || low == 0 && high == 0 {
		return nil
	}
	range_ := strings.TrimSpace(fmt.Sprintf("%s to %s %s", catalog.Number(low), catalog.Number(high), symbol))
	hint := ""
	if symbol != "" && symbol != "%" {
		hint = "check the unit"
	}
	return &fault{fmt.Sprintf("%s is outside the possible %s", quoted(text), range_), hint}
}

// shareLeaf reads a share written with %, between low and high in per cent.
func shareLeaf[S any](name, about, example string, low, high float64, at func(*S) *placed[float64]) entry {
	f := form{kind: formShare, low: low, high: high}
	parse := func(text string) (float64, error) { return parseShare(text, low, high) }
	return leaf(name, about, example, f, parse, at)
}

func parseShare(text string, low, high float64) (float64, error) {
	number, marked := strings.CutSuffix(text, "%")
	v, err := plainNumber(number)
	if err != nil {
		return 0, &fault{quoted(text) + " is no share", "write it in per cent, such as 55 %"}
	}
	if !marked {
		return 0, &fault{quoted(text) + " is not marked as a share", "write it in per cent: " + shareExample(text, v)}
	}
	return v / 100, within(text, v, low, high, "%")
}

func shareExample(text string, v float64) string {
	if v > 0 && v <= 1 {
		return catalog.Number(100*v) + " %"
	}
	return strings.TrimSpace(text) + " %"
}

// plainNumber reads a number without a unit.
func plainNumber(text string) (float64, error) {
	return quantity.Parse(strings.TrimSpace(text), quantity.PreferredUnit(quantity.DimNone))
}

func numberLeaf[S any](name, about, example string, low, high float64, at func(*S) *placed[float64]) entry {
	parse := func(text string) (float64, error) {
		v, err := plainNumber(text)
		if err != nil {
			return 0, err
		}
		return v, within(text, v, low, high, "")
	}
	return leaf(name, about, example, form{kind: formNumber, low: low, high: high}, parse, at)
}

func countLeaf[S any](name, about, example string, low, high float64, at func(*S) *placed[float64]) entry {
	parse := func(text string) (float64, error) {
		v, err := plainNumber(text)
		if err != nil {
			return 0, err
		}
		if v != math.Trunc(v) {
			return 0, &fault{quoted(text) + " is not a whole number", ""}
		}
		return v, within(text, v, low, high, "")
	}
	return leaf(name, about, example, form{kind: formCount, low: low, high: high}, parse, at)
}

// Speeds that a fan turns at, in rpm, and the share of its label it can have;
// outside, the count is wrong (common practice).
const (
	leastSpeed, mostSpeed           = 30, 200000
	leastSpeedShare, mostSpeedShare = 5, 150
)

// speedLeaf reads a speed in rpm, or as a share.
func speedLeaf[S any](name, about, example string, at func(*S) *placed[match.Speed]) entry {
	parse := func(text string) (s match.Speed, err error) {
		if strings.HasSuffix(text, "%") {
			v, err := parseShare(text, leastSpeedShare, mostSpeedShare)
			return match.Speed{Ratio: quantity.Stated(v)}, err
		}
		v, err := parseAmount(text, quantity.PreferredUnit(quantity.DimSpeed), leastSpeed, mostSpeed)
		return match.Speed{Turns: quantity.Stated(quantity.Speed(v))}, err
	}
	return leaf(name, about, example, form{kind: formSpeed, symbol: "rpm", low: leastSpeed, high: mostSpeed}, parse, at)
}

// noThing is written where there is no such thing.
const noThing = "none"

// clearanceLeaf reads a distance, or that there is no such thing.
func clearanceLeaf[S any](name, about, example string, at func(*S) *placed[match.Clearance]) entry {
	const low, high = 0, 2000
	parse := func(text string) (match.Clearance, error) {
		if text == noThing {
			return match.Clearance{None: true}, nil
		}
		v, err := parseAmount(text, quantity.PreferredUnit(quantity.DimLength), low, high)
		if errors.As(err, new(*quantity.ParseError)) {
			err = &fault{quoted(text) + " is no distance", "write a distance such as 12 mm, or " + noThing}
		}
		return match.Clearance{Distance: quantity.Stated(quantity.Length(v))}, err
	}
	return leaf(name, about, example, form{kind: formLength, symbol: "mm", low: low, high: high}, parse, at)
}
