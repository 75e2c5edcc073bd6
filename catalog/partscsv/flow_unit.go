package partscsv

import (
	"fmt"
	"math"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// The flow coefficient of a fan is phi = Q/(A·u), with the free flow Q, the area
// A of its frame and the tip speed u. That of small axial fans is 0.18 to 0.32
// (common practice: 0.26 for 25 m³/h at 3000 rpm in a 60 mm frame). Read in m³/h,
// numbers in CFM give 1/1.7 of it, 0.11 to 0.19. So a median from flowSurely on
// says m³/h, and one up to flowHardly CFM, but the latter only of fans that are
// known to be axial: blowers give less.
const (
	flowSurely = 0.19
	flowHardly = 0.17
	flowFans   = 5 // the fewest fans a median is taken of
)

// flowUnit decides between m³/h and CFM, which differ by 1.7 only, so that
// neither is impossible: by the flow coefficient of the fans where the file
// gives speed and frame, else by the unit system of the rest, else m³/h. u is
// what the rest of the file makes likely.
func (b *builder) flowUnit(c *column, u quantity.Unit) (quantity.Unit, string) {
	all, axial := b.flowCoefficients(c)
	units := unitsNamed(quantity.DimFlow, []string{"m³/h", "CFM"})
	switch {
	case len(all) >= flowFans && median(all) >= flowSurely:
		return units[0], "since speed and frame of the fans then give the flow of such fans"
	case len(axial) >= flowFans && median(axial) <= flowHardly:
		return units[1], "since m³/h would be too little for the speed and frame of the fans"
	}
	other := units[1]
	if u.Symbol == other.Symbol {
		other = units[0]
	}
	doubt := fmt.Sprintf("but it may be %s (1 CFM = 1.7 m³/h): check one fan, and write the unit into the header", other.Symbol)
	switch system := b.imperial(); {
	case system > 0:
		return u, "since the other units of the file are imperial, " + doubt
	case system < 0:
		return u, "since the other units of the file are metric, " + doubt
	}
	return u, "the usual unit of the trade, " + doubt
}

// flowCoefficients gives phi of the sampled fans with their bare flows read in
// m³/h: of all that are not known to be something else than axial, and of those
// known to be axial.
func (b *builder) flowCoefficients(c *column) (all, axial []float64) {
	width, speed := b.columnOf(catalog.FieldWidth), b.columnOf(catalog.FieldSpeed)
	if width == nil || speed == nil {
		return nil, nil
	}
	for _, row := range b.in.Sample {
		q, okQ := b.bareNumber(c, row)
		d, okD := b.numberIn(width, row)
		n, okN := b.numberIn(speed, row)
		kind := b.kindIn(row)
		if !okQ || !okD || !okN || d == 0 || n == 0 || kind > catalog.Axial {
			continue
		}
		phi := q * float64(quantity.CubicMetrePerHour) / (math.Pi / 4 * d * d * math.Pi * d * n)
		all = append(all, phi)
		if kind == catalog.Axial {
			axial = append(axial, phi)
		}
	}
	return all, axial
}

// numberIn gives the first number of a row's cell in SI.
func (b *builder) numberIn(c *column, row []string) (float64, bool) {
	if c.index >= len(row) || b.lexicon.isUnknown(normalise(row[c.index])) {
		return 0, false
	}
	if fault := b.reader.take(c, row[c.index]); fault != "" && (fault != noUnit || b.reader.bareNumbers(c) != "") {
		return 0, false
	}
	return b.reader.sorted.values[0].high, true
}

// kindIn gives the kind of a row's fan, 0 where it is not said.
func (b *builder) kindIn(row []string) catalog.Kind {
	c := b.columnOf(catalog.FieldKind)
	if c == nil || c.index >= len(row) {
		return 0
	}
	tokens := b.lexicon.choiceTokens(row[c.index])
	group, _, _ := b.lexicon.choices[catalog.FieldKind].find(tokens)
	if group < 0 && b.lexicon.blowers.has(tokens) {
		return catalog.Centrifugal
	}
	return catalog.Kind(group + 1)
}

func median(list []float64) float64 {
	slices.Sort(list)
	return list[len(list)/2]
}
