package catalog

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"lowsone/catalog/quantity"
)

// Verdict is the answer of one check. Missing data is Unclear, never Pass.
type Verdict uint8

// The verdicts.
const (
	Unclear Verdict = iota
	Pass
	Warn
	Fail
)

// String gives the verdict's name as people and JSON see it.
func (v Verdict) String() string { return [...]string{"unknown", "pass", "warn", "fail"}[v] }

// frameTolerance is how far two statements of one frame or hole pitch may be
// apart (common practice: 0.5 mm).
const frameTolerance = 0.5e-3

// Same says whether two lengths of a frame or hole pattern are the same.
func Same(a, b float64) bool { return math.Abs(a-b) <= frameTolerance*(1+1e-9) }

// SameFrame says whether two frame sizes fit one seat. 119 mm and 120 mm are
// two names of one frame (common practice).
func SameFrame(a, b float64) bool {
	large := func(v float64) bool { return v >= 118.5e-3 && v <= 120.5e-3 }
	return Same(a, b) || large(a) && large(b)
}

// FrameIs checks width and height in metres, in either order.
func (c *Columns) FrameIs(i int, width, height float64) Verdict {
	w, h := c.Number(FieldWidth, i), c.Number(FieldHeight, i)
	if math.IsNaN(w) || math.IsNaN(h) {
		return Unclear
	}
	return verdict(SameFrame(w, width) && SameFrame(h, height) || SameFrame(w, height) && SameFrame(h, width))
}

// AtMost checks that a numeric field does not exceed most (SI).
func (c *Columns) AtMost(id FieldID, i int, most float64) Verdict {
	v := c.Number(id, i)
	if math.IsNaN(v) {
		return Unclear
	}
	return verdict(v <= most*(1+1e-9))
}

// AtLeast checks that a numeric field reaches least (SI).
func (c *Columns) AtLeast(id FieldID, i int, least float64) Verdict {
	v := c.Number(id, i)
	if math.IsNaN(v) {
		return Unclear
	}
	return verdict(v >= least*(1-1e-9))
}

// Equals checks a numeric field for one value (SI).
func (c *Columns) Equals(id FieldID, i int, want float64) Verdict {
	v := c.Number(id, i)
	if math.IsNaN(v) {
		return Unclear
	}
	return verdict(math.Abs(v-want) <= 1e-9*math.Abs(want))
}

// Takes checks that the fan of row i may run at the supply voltage volts:
// within its range, else, where it states none, at its nominal voltage within
// the share tolerance (0.05 for ±5 %).
func (c *Columns) Takes(i int, volts, tolerance float64) Verdict {
	nominal := c.Number(FieldVoltage, i)
	low, high := c.Number(FieldVoltageMin, i), c.Number(FieldVoltageMax, i)
	if math.IsNaN(low) {
		low = nominal * (1 - tolerance)
	}
	if math.IsNaN(high) {
		high = nominal * (1 + tolerance)
	}
	if math.IsNaN(low) || math.IsNaN(high) {
		return Unclear
	}
	return verdict(volts >= low*(1-1e-9) && volts <= high*(1+1e-9))
}

// CodeIs checks a choice field.
func (c *Columns) CodeIs(id FieldID, i int, want uint8) Verdict {
	code := c.Code(id, i)
	if code == 0 {
		return Unclear
	}
	return verdict(code == want)
}

// TextIs checks a text field, blanks and case folded.
func (c *Columns) TextIs(id FieldID, i int, want string) Verdict {
	have := c.Text(id, i)
	if have == "" {
		return Unclear
	}
	return verdict(strings.EqualFold(have, want) || FoldKey(have) == FoldKey(want))
}

// TextHas checks that a text field contains words, blanks and case folded.
func (c *Columns) TextHas(id FieldID, i int, words string) Verdict {
	have := c.Text(id, i)
	if have == "" {
		return Unclear
	}
	return verdict(strings.Contains(FoldKey(have), FoldKey(words)))
}

// LevelAtMost checks the rated level, brought to a sound pressure level 1 m from
// the fan in free air, in dB(A).
func (c *Columns) LevelAtMost(i int, most float64) Verdict {
	l := c.Number(FieldNoise, i)
	if NoiseKind(c.Code(FieldNoiseKind, i)) == NoisePower {
		l -= float64(quantity.PowerOverPressure)
	} else if d := c.Number(FieldNoiseDistance, i); !math.IsNaN(d) {
		l += 20 * math.Log10(d)
	}
	if math.IsNaN(l) {
		return Unclear
	}
	return verdict(l <= most+1e-9)
}

func verdict(ok bool) Verdict {
	if ok {
		return Pass
	}
	return Fail
}

// HasStock checks whether there are pieces of row i: by their number, else by
// what is said without one.
func (c *Columns) HasStock(i int) Verdict {
	if !math.IsNaN(c.Number(FieldStock, i)) {
		return c.AtLeast(FieldStock, i, 1)
	}
	return c.CodeIs(FieldInStock, i, 2)
}

// Filter is what a search asks of a fan. A zero member asks nothing.
type Filter struct {
	Width, Height quantity.Length // Height 0: a square frame
	DepthMax      quantity.Length
	Voltage       quantity.Voltage // the supply
	Supply        Supply
	Kind          Kind
	Leads         float64
	Connector     string
	Maker         string
	NoiseMax      quantity.Decibel
	AirflowMin    quantity.Flow
	PressureMin   quantity.Pressure
	PriceMax      float64
	InStock       bool
	From, To      int // rows of one source: from, and before; To 0: all
}

// Fields lists the columns that Match reads.
func (f *Filter) Fields() []FieldID {
	var list []FieldID
	add := func(asked bool, ids ...FieldID) {
		if asked {
			list = append(list, ids...)
		}
	}
	add(f.Width != 0, FieldWidth, FieldHeight)
	add(f.DepthMax != 0, FieldDepth)
	add(f.Voltage != 0, FieldVoltage, FieldVoltageMin, FieldVoltageMax)
	add(f.Supply != 0, FieldSupply)
	add(f.Kind != 0, FieldKind)
	add(f.Leads != 0, FieldLeads)
	add(f.Connector != "", FieldConnector)
	add(f.Maker != "", FieldMaker)
	add(f.NoiseMax != 0, FieldNoise, FieldNoiseKind, FieldNoiseDistance)
	add(f.AirflowMin != 0, FieldAirflow)
	add(f.PressureMin != 0, FieldStaticPressure)
	add(f.PriceMax != 0, FieldPrice)
	add(f.InStock, FieldStock, FieldInStock)
	return list
}

// Among says whether row i is of the source that is asked for, and not set aside:
// of fans that are not, no value is asked.
func (f *Filter) Among(c *Columns, i int) bool {
	row := c.First + i
	return !c.IsAside(i) && (f.To == 0 || row >= f.From && row < f.To)
}

// Match checks row i: Fail where it is set aside or one asked value is not met,
// else Unclear where one is unknown, else Pass.
func (f *Filter) Match(c *Columns, i int) Verdict {
	if !f.Among(c, i) {
		return Fail
	}
	result := Pass
	for _, check := range filterChecks {
		switch check(f, c, i) {
		case Fail:
			return Fail
		case Unclear:
			result = Unclear
		}
	}
	return result
}

// filterChecks answer Pass where their member asks nothing.
var filterChecks = []func(*Filter, *Columns, int) Verdict{
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.Width != 0, func() Verdict { return c.FrameIs(i, float64(f.Width), float64(cmp.Or(f.Height, f.Width))) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.DepthMax != 0, func() Verdict { return c.AtMost(FieldDepth, i, float64(f.DepthMax)) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.Voltage != 0, func() Verdict { return c.Takes(i, float64(f.Voltage), 0) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.Supply != 0, func() Verdict { return c.CodeIs(FieldSupply, i, uint8(f.Supply)) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.Kind != 0, func() Verdict { return c.CodeIs(FieldKind, i, uint8(f.Kind)) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.Leads != 0, func() Verdict { return c.Equals(FieldLeads, i, f.Leads) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.Connector != "", func() Verdict { return c.TextHas(FieldConnector, i, f.Connector) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.Maker != "", func() Verdict { return c.TextIs(FieldMaker, i, f.Maker) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.NoiseMax != 0, func() Verdict { return c.LevelAtMost(i, float64(f.NoiseMax)) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.AirflowMin != 0, func() Verdict { return c.AtLeast(FieldAirflow, i, float64(f.AirflowMin)) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.PressureMin != 0, func() Verdict { return c.AtLeast(FieldStaticPressure, i, float64(f.PressureMin)) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.PriceMax != 0, func() Verdict { return c.AtMost(FieldPrice, i, f.PriceMax) })
	},
	func(f *Filter, c *Columns, i int) Verdict {
		return asked(f.InStock, func() Verdict { return c.HasStock(i) })
	},
}

func asked(asks bool, check func() Verdict) Verdict {
	if !asks {
		return Pass
	}
	return check()
}

// Select lists the rows that pass, rising, and counts those that might pass
// but do not say.
func (f *Filter) Select(c *Columns) (rows []int, unclear int) {
	for i := range c.Rows {
		switch f.Match(c, i) {
		case Pass:
			rows = append(rows, i)
		case Unclear:
			unclear++
		}
	}
	return rows, unclear
}

// Sort orders rows by a field, unknown values last in either direction; equal
// rows stand by maker, part and row number.
func (c *Columns) Sort(rows []int, by *Field, descending bool) {
	slices.SortFunc(rows, func(i, j int) int {
		if n := c.compare(by, i, j, descending); n != 0 {
			return n
		}
		return c.CompareNames(i, j)
	})
}

// CompareNames orders two rows by maker, part (case folded, then exactly) and
// row number.
func (c *Columns) CompareNames(i, j int) int {
	for _, id := range [...]FieldID{FieldMaker, FieldPart} {
		a, b := c.Text(id, i), c.Text(id, j)
		if n := cmp.Or(cmp.Compare(strings.ToLower(a), strings.ToLower(b)), cmp.Compare(a, b)); n != 0 {
			return n
		}
	}
	return cmp.Compare(i, j)
}

func (c *Columns) compare(by *Field, i, j int, descending bool) int {
	known, n := true, 0
	switch {
	case by.Numeric():
		a, b := c.Number(by.ID, i), c.Number(by.ID, j)
		known, n = orderKnown(!math.IsNaN(a), !math.IsNaN(b), cmp.Compare(a, b))
	case by.Form == Choice:
		a, b := c.Code(by.ID, i), c.Code(by.ID, j)
		known, n = orderKnown(a != 0, b != 0, cmp.Compare(a, b))
	case by.Form == Text:
		a, b := c.Text(by.ID, i), c.Text(by.ID, j)
		known, n = orderKnown(a != "", b != "", cmp.Compare(strings.ToLower(a), strings.ToLower(b)))
	}
	if known && descending {
		return -n
	}
	return n
}

// orderKnown puts unknown values last; bothKnown says whether n may be turned.
func orderKnown(a, b bool, n int) (bothKnown bool, order int) {
	switch {
	case a && b:
		return true, n
	case a:
		return false, -1
	case b:
		return false, 1
	}
	return false, 0
}
