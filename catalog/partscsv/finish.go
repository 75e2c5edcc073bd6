package partscsv

import (
	"fmt"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// mainsFrequency reads a frequency column: one, or the pair that the other
// columns state their values for.
func (r *Reader) mainsFrequency(c *column, text string) {
	fault := r.take(c, text)
	if fault != "" {
		r.row.refuse(c, text, fault, c.hint(fault))
		return
	}
	for i := range r.sorted.values {
		v := &r.sorted.values[i]
		r.row.frequencies = append(r.row.frequencies, v.low)
		if v.ranged() {
			r.row.frequencies = append(r.row.frequencies, v.high)
		}
	}
}

// finish settles what several cells of a row decide together, fills in what
// follows from them, and checks the record as a whole.
func (r *Reader) finish() {
	r.settleFrequency()
	r.settleSides()
	r.settleSupply()
	r.give()
	r.settleNominal()
	r.settleDraw()
	if r.bands != nil && r.row.err == nil {
		r.settleBands()
	}
	if r.row.err != nil {
		return
	}
	r.check()
}

// settleFrequency takes the values for one mains frequency out of the pairs:
// those for 50 Hz where the row says which are, else the cautious ones.
func (r *Reader) settleFrequency() {
	hz := r.frequencies()
	if len(r.row.pairs) == 0 {
		r.oneFrequency(hz)
		return
	}
	first := r.row.pairs[0].column
	if len(hz) == 2 {
		second := hz[1] == 50
		f := map[bool]float64{false: hz[0], true: hz[1]}
		r.row.put(first, catalog.FieldFrequency, f[second], quantity.Cell, "")
		r.choosePairs(func(*pair) bool { return second }, fmt.Sprintf("at %s Hz", catalog.Number(f[!second])))
		return
	}
	r.choosePairs(func(p *pair) bool {
		low := ends[p.column.field] == endLow || p.column.field == catalog.FieldSpeed
		return low == (p.second < p.first)
	}, "or, at another mains frequency,")
	r.row.warn(first, "pairs of values without two mains frequencies: the lower flow and the higher level are taken",
		"which mains frequency the pairs of values hold for is not said: the lower flow and the higher level are taken")
}

// frequencies lists the mains frequencies the row names, each once.
func (r *Reader) frequencies() []float64 {
	var list []float64
	for _, f := range r.row.frequencies {
		seen := false
		for _, g := range list {
			seen = seen || f == g
		}
		if !seen {
			list = append(list, f)
		}
	}
	return list
}

// oneFrequency stores the frequency of a row without pairs.
func (r *Reader) oneFrequency(hz []float64) {
	c := r.plan.columnOf(catalog.FieldFrequency)
	if c == nil {
		c = r.plan.columnOf(catalog.FieldVoltage)
	}
	if c == nil {
		c = r.plan.columns[0]
	}
	switch len(hz) {
	case 0:
		r.headerFrequency()
	case 1:
		r.row.put(c, catalog.FieldFrequency, hz[0], quantity.Cell, "")
	default:
		r.row.remark(c, "for %s Hz; which of them its values hold for is not said", joinNumbers(hz, " and "))
	}
}

// headerFrequency takes the mains frequency from the headers of the values.
func (r *Reader) headerFrequency() {
	for _, c := range r.plan.order {
		if !c.taken || c.check || !mains[c.field] {
			continue
		}
		if _, origin := c.def().Get(r.row.fan); origin == quantity.Unknown {
			continue
		}
		if hz, ok := c.header.condition(quantity.DimFrequency); ok {
			r.row.put(c, catalog.FieldFrequency, hz, quantity.Cell, c.header.text)
			return
		}
	}
}

// choosePairs keeps one value of each pair and remarks on the other.
func (r *Reader) choosePairs(second func(*pair) bool, where string) {
	for i := range r.row.pairs {
		p := &r.row.pairs[i]
		d := p.column.def()
		kept, left := p.first, p.second
		if second(p) {
			kept, left = left, kept
		}
		if reason, hint := d.Bound(kept); reason != "" {
			r.row.refuse(p.column, show(d, kept), reason, hint)
			continue
		}
		if r.row.from[d.ID] == (origin{p.column.index + 1, false}) {
			d.Put(r.row.fan, catalog.Value{Number: kept}, quantity.Cell)
		}
		r.row.remark(p.column, "%s %s %s", d.Title, where, show(d, left))
	}
}

// settleSides makes one size both sides of the frame, where no column gives
// the other.
func (r *Reader) settleSides() {
	f := r.row.fan
	width, ok := f.Width.Get()
	if !ok || f.Height.Known() || r.row.single < 0 || !r.plan.lone {
		return
	}
	f.Height = quantity.From(width, f.Width.Origin())
	r.row.from[catalog.FieldHeight] = origin{r.row.single + 1, true}
}

// settleSupply takes the supply from the voltage where no column states it.
func (r *Reader) settleSupply() {
	f := r.row.fan
	for _, clue := range r.row.supplies {
		have, known := f.Supply.Get()
		switch {
		case !known:
			f.Supply = quantity.Stated(clue.supply)
			r.row.from[catalog.FieldSupply] = origin{clue.column.index + 1, true}
		case have != clue.supply:
			r.row.warn(clue.column, "DC and AC contradict each other", "supply %s, but %q says %s", have, clue.column.header.text, clue.supply)
			return
		}
	}
	if hz, ok := f.Frequency.Get(); ok && hz > 0 && !f.Supply.Known() {
		f.Supply = quantity.Stated(catalog.AC)
	}
}

// settleNominal estimates the nominal voltage of a range.
func (r *Reader) settleNominal() {
	f := r.row.fan
	low, okLow := f.VoltageMin.Get()
	high, okHigh := f.VoltageMax.Get()
	if f.Voltage.Known() || !okLow || !okHigh {
		return
	}
	if v, ok := estimateNominal(float64(low), float64(high), f.Supply.Or(0)); ok {
		f.Voltage = quantity.From(quantity.Voltage(v), quantity.Estimate)
		c := r.plan.columns[max(0, r.row.from[catalog.FieldVoltageMin].column-1)]
		r.row.remark(c, "nominal voltage %s V is estimated: the only usual one within %s to %s V",
			catalog.Number(v), catalog.Number(float64(low)), catalog.Number(float64(high)))
	}
}

// check fills in from the curve and looks at the record as a whole.
func (r *Reader) check() {
	f := r.row.fan
	r.tellGiven()
	problems := catalog.Check(f)
	f.FillFromCurve()
	for i := range problems {
		p := &problems[i]
		c := r.plan.columnFrom(r.row.from[p.Field].column)
		if p.Fatal {
			cell := ""
			if c.index >= 0 {
				cell = r.cells[c.index]
			}
			r.row.reject(c, cell, p.Reason, p.Hint)
			return
		}
		r.warnOfProblem(c, p)
	}
}

func joinNumbers(list []float64, sep string) string {
	parts := make([]string, len(list))
	for i, v := range list {
		parts[i] = catalog.Number(v)
	}
	return strings.Join(parts, sep)
}
