package partscsv

import (
	"fmt"
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// amount is what one unit of a cell says of its field, in SI: a number, a
// range, or a pair for two mains frequencies.
type amount struct {
	low, high float64
	second    float64 // of a pair; NaN where there is none
	said      meanings
	unit      quantity.Unit
}

func (a *amount) ranged() bool { return a.low != a.high }

func (a *amount) paired() bool { return !math.IsNaN(a.second) }

// scale says in which units the numbers of a column are that name none.
type scale struct {
	dimension quantity.Dimension
	units     []quantity.Unit // of the header, or assumed; one for each number of a cell, or one for all
	assumed   bool            // no header names the unit
}

// bare gives the unit of the i-th of n numbers without unit.
func (s *scale) bare(i, n int) (quantity.Unit, bool) {
	switch {
	case len(s.units) == 0:
		return quantity.PreferredUnit(s.dimension), s.dimension == quantity.DimNone
	case len(s.units) == n:
		return s.units[i], true
	}
	return s.units[0], true
}

// value is one statement of the field's dimension, in SI.
type value struct {
	low, high float64
	said      meanings
	joint     tokenKind
	unit      quantity.Unit
	unitText  string
}

func (v *value) ranged() bool { return v.low != v.high }

// sorted is a cell with its statements told apart: those of the field, and the
// conditions and companions beside them.
type sorted struct {
	values  []value
	amounts []amount // the values, one amount for each unit, in the order of the cell
	others  []condition
}

// sortOut tells the statements of a cell apart; fault says why it cannot.
func (s *scale) sortOut(c *cell, into *sorted) (fault string) {
	into.values, into.others = into.values[:0], into.others[:0]
	bare, seen := s.countBare(c), 0
	for i := range c.statements {
		st := &c.statements[i]
		u, ok := ofDimension(st.units, s.dimension)
		switch {
		case st.condition, st.units != nil && !ok:
			into.others = append(into.others, condition{st.high, st.units})
			continue
		case st.units == nil && s.foreignPair(c, i): // the 50 of "50/60 Hz"
			into.others = append(into.others, condition{st.high, c.statements[i+1].units})
			continue
		case st.units == nil:
			if u, ok = s.unitOfBare(c, i, seen, bare); !ok {
				return noUnit
			}
			seen++
		}
		v := value{u.ToSI(st.low), u.ToSI(st.high), st.said, st.joint, u, st.unitText}
		if math.IsInf(v.low, 0) || math.IsInf(v.high, 0) {
			return "not a finite number"
		}
		into.values = append(into.values, v)
	}
	return s.noValue(c, into)
}

// noValue says why a cell holds no value of the dimension, if it holds none.
func (s *scale) noValue(c *cell, into *sorted) (fault string) {
	switch {
	case len(into.values) > 0:
		return ""
	case c.statements[0].unitText == "":
		return "only a condition, no value"
	}
	return fmt.Sprintf("%s is no unit of %s", c.statements[0].unitText, s.dimension)
}

// countBare counts the numbers of a cell that name no unit.
func (s *scale) countBare(c *cell) int {
	n := 0
	for i := range c.statements {
		if st := &c.statements[i]; st.units == nil && !st.condition && !s.foreignPair(c, i) {
			n++
		}
	}
	return n
}

// unitOfBare gives the unit of statement i, the seen-th of bare numbers without
// unit: that of a neighbour, else of the header.
func (s *scale) unitOfBare(c *cell, i, seen, bare int) (quantity.Unit, bool) {
	if u, ok := s.neighbour(c, i); ok {
		return u, ok
	}
	return s.bare(seen, bare)
}

// foreignPair says whether a number without unit is the first half of a pair in
// a unit of another dimension.
func (s *scale) foreignPair(c *cell, i int) bool {
	if i+1 >= len(c.statements) || c.statements[i+1].joint != tokSlash || c.statements[i+1].units == nil {
		return false
	}
	return !isOf(c.statements[i+1].units, s.dimension)
}

// noUnit is the fault of a number whose unit nothing names.
const noUnit = "no unit in the header or the cell"

// neighbour gives the unit a number without unit shares with others of its
// cell: the sides of one product have one unit; "45/53 m³/h" and
// "12 (10.8-13.2) V" too, unless the header names another.
func (s *scale) neighbour(c *cell, i int) (quantity.Unit, bool) {
	for j := i + 1; j < len(c.statements) && c.statements[j].joint == tokTimes; j++ {
		if u, ok := ofDimension(c.statements[j].units, s.dimension); ok {
			return u, ok
		}
	}
	for j := i; j > 0 && c.statements[j].joint == tokTimes; j-- {
		if u, ok := ofDimension(c.statements[j-1].units, s.dimension); ok {
			return u, ok
		}
	}
	if len(s.units) > 0 && !s.assumed {
		return quantity.Unit{}, false
	}
	if i+1 < len(c.statements) && !c.statements[i+1].condition {
		if u, ok := ofDimension(c.statements[i+1].units, s.dimension); ok {
			return u, ok
		}
	}
	if i > 0 {
		return ofDimension(c.statements[i-1].units, s.dimension)
	}
	return quantity.Unit{}, false
}

// gather makes one amount of the values in each unit.
func (t *sorted) gather() (fault string) {
	t.amounts = t.amounts[:0]
	for i := range t.values {
		if fault := t.put(&t.values[i]); fault != "" {
			return fault
		}
	}
	return ""
}

func (t *sorted) put(v *value) (fault string) {
	for i := range t.amounts {
		if a := &t.amounts[i]; a.unit.Symbol == v.unit.Symbol {
			return a.join(v)
		}
	}
	t.amounts = append(t.amounts, amount{low: v.low, high: v.high, second: math.NaN(), said: v.said, unit: v.unit})
	return ""
}

// join adds a second statement in the same unit: the other half of a pair, or
// the other end of "25 (max. 28)".
func (a *amount) join(v *value) (fault string) {
	bounds := meanings(1<<catalog.Most | 1<<catalog.Least)
	switch {
	case v.joint == tokSlash && !a.ranged() && !a.paired() && !v.ranged() && (a.said|v.said)&bounds == 0:
		a.second = v.low
	case !a.paired() && ((a.said|v.said)&bounds != 0 || a.ranged() || v.ranged()):
		a.low, a.high = math.Min(a.low, v.low), math.Max(a.high, v.high)
		a.said |= v.said
	case a.paired():
		return "more than two values"
	default:
		return "two values, and nothing says which is which"
	}
	return ""
}

// twoStatements and contradiction are how far two statements of one value may
// be apart: beyond the first they are worth a warning (rounding of two units on
// one label, common practice), beyond the second one of them is a slip that
// nobody can tell from the other, and the cell cannot be used.
const (
	twoStatements = 0.03
	contradiction = 0.25
)

// apart gives how far b is from a, as a share of the larger.
func apart(a, b float64) float64 {
	if a == b {
		return 0
	}
	return math.Abs(a-b) / math.Max(math.Abs(a), math.Abs(b))
}

// show writes an SI value in the unit of its field, for remarks.
func show(d *catalog.Field, si float64) string {
	text := catalog.Number(significant(d.InUnit(si)))
	if d.Form == catalog.Quantity {
		text += " " + d.Unit.Symbol
	}
	return text
}

// significant rounds to the four digits that a remark needs.
func significant(v float64) float64 {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return v
	}
	scale := math.Pow(10, 4-math.Ceil(math.Log10(math.Abs(v))))
	if rounded := math.Round(v*scale) / scale; !math.IsInf(rounded, 0) && !math.IsNaN(rounded) {
		return rounded
	}
	return v
}

// showRange writes both ends of an amount.
func showRange(d *catalog.Field, low, high float64) string {
	return strings.TrimSuffix(show(d, low), " "+d.Unit.Symbol) + " to " + show(d, high)
}
