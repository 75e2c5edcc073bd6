package partscsv

import (
	"fmt"
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// nearTwins is how far two voltages in one cell may be apart to be the ends of
// one range ("220/240 V") and not two windings ("115/230 V").
const nearTwins = 0.15

// voltages are what a voltage cell states; NaN where it does not.
type voltages struct{ nominal, low, high float64 }

// voltage reads a cell of one of the three voltage columns.
func (r *Reader) voltage(c *column, text string) {
	plain, phases := withoutPhases(text)
	fault := r.take(c, plain)
	var v voltages
	if fault == "" {
		v, fault = r.sortVoltages()
	}
	if fault != "" {
		hint := c.hint(fault)
		if strings.HasPrefix(fault, "two voltages") {
			hint = "make a row for each voltage"
		}
		r.row.refuse(c, text, fault, hint)
		return
	}
	if phases {
		r.row.supplies = append(r.row.supplies, supplyClue{c, catalog.AC})
	}
	r.supplyClues(c)
	r.companions(c)
	r.putVoltages(c, r.byColumn(c, v), text)
}

// withoutPhases cuts the number of phases off a mains voltage: "1~ 230 V",
// "3~400 V".
func withoutPhases(text string) (rest string, phases bool) {
	clean := normalise(text)
	if len(clean) < 3 || clean[0] != '1' && clean[0] != '3' {
		return text, false
	}
	after, ok := strings.CutPrefix(strings.TrimLeft(clean[1:], " "), "~")
	if after = strings.TrimLeft(after, " "); !ok || after == "" || !isDigit(after[0]) {
		return text, false
	}
	return after, true
}

// sortVoltages tells nominal voltage and range apart.
func (r *Reader) sortVoltages() (v voltages, fault string) {
	v = voltages{math.NaN(), math.NaN(), math.NaN()}
	for i := range r.sorted.values {
		if fault := v.take(&r.sorted.values[i]); fault != "" {
			return v, fault
		}
	}
	if t := r.cell.tolerance; t != nil {
		if math.IsNaN(v.nominal) || !math.IsNaN(v.low) {
			return v, "a tolerance without the one voltage it belongs to"
		}
		v.low, v.high = t.around(v.nominal)
	}
	return v, ""
}

func (v *voltages) take(s *value) (fault string) {
	twoRanges := "two ranges of voltage"
	switch {
	case s.ranged():
		if !math.IsNaN(v.low) || !math.IsNaN(v.high) {
			return twoRanges
		}
		v.low, v.high = s.low, s.high
	case s.said.has(catalog.Least) && !s.said.has(catalog.Most):
		if !math.IsNaN(v.low) {
			return twoRanges
		}
		v.low = s.low
	case s.said.has(catalog.Most):
		if !math.IsNaN(v.high) {
			return twoRanges
		}
		v.high = s.low
	case math.IsNaN(v.nominal) || v.nominal == s.low:
		v.nominal = s.low
	case apart(v.nominal, s.low) <= nearTwins && math.IsNaN(v.low):
		v.low, v.high = math.Min(v.nominal, s.low), math.Max(v.nominal, s.low)
		v.nominal = math.NaN()
	default:
		d := &catalog.Fields[catalog.FieldVoltage]
		return fmt.Sprintf("two voltages, %s and %s; the record holds one", show(d, v.nominal), show(d, s.low))
	}
	return ""
}

// around gives the ends of a tolerance.
func (t *tolerance) around(v float64) (low, high float64) {
	if t.percent {
		return v * (1 - t.minus/100), v * (1 + t.plus/100)
	}
	return v - t.minus, v + t.plus
}

// byColumn puts a single voltage where its column says it belongs.
func (r *Reader) byColumn(c *column, v voltages) voltages {
	if c.field == catalog.FieldVoltage || !math.IsNaN(v.low) || !math.IsNaN(v.high) {
		return v
	}
	switch {
	case c.field == catalog.FieldVoltageMax:
		v.high, v.nominal = v.nominal, math.NaN()
	case c.lowEnd:
		v.low, v.nominal = v.nominal, math.NaN()
	default: // a column of ranges
		r.row.remark(c, "%q holds one voltage, taken as the nominal one", c.header.text)
	}
	return v
}

func (r *Reader) putVoltages(c *column, v voltages, text string) {
	put := func(id catalog.FieldID, x float64) {
		if !math.IsNaN(x) {
			r.row.put(c, id, x, quantity.Cell, text)
		}
	}
	put(catalog.FieldVoltage, v.nominal)
	put(catalog.FieldVoltageMin, v.low)
	put(catalog.FieldVoltageMax, v.high)
}

// supplyClues takes DC and AC from the spelling of the units.
func (r *Reader) supplyClues(c *column) {
	for i := range r.sorted.values {
		if s := supplyOf(r.sorted.values[i].unitText); s != 0 {
			r.row.supplies = append(r.row.supplies, supplyClue{c, s})
		}
	}
	if c.supply != 0 {
		r.row.supplies = append(r.row.supplies, supplyClue{c, c.supply})
	}
}

// supplyOf tells the supply from a unit: VDC, Vcc (courant continu), V AC, Vca.
func supplyOf(unit string) catalog.Supply {
	folded := strings.ToLower(strings.ReplaceAll(unit, " ", ""))
	for _, s := range [...]struct {
		sign   string
		supply catalog.Supply
	}{{"dc", catalog.DC}, {"cc", catalog.DC}, {"gs", catalog.DC}, {"⎓", catalog.DC}, {"=", catalog.DC}, {"ac", catalog.AC}, {"ca", catalog.AC}, {"ws", catalog.AC}, {"~", catalog.AC}, {"⏦", catalog.AC}} {
		if strings.Contains(folded, s.sign) {
			return s.supply
		}
	}
	return 0
}

// usualVoltages are the nominal voltages of small fans (common practice).
var usualVoltages = map[catalog.Supply][]float64{
	catalog.DC: {5, 12, 24, 48},
	catalog.AC: {115, 230, 400},
}

// estimateNominal gives the nominal voltage of a range that holds only one
// usual one.
func estimateNominal(low, high float64, supply catalog.Supply) (float64, bool) {
	found := 0.0
	for _, s := range [...]catalog.Supply{catalog.DC, catalog.AC} {
		if supply != 0 && supply != s {
			continue
		}
		for _, v := range usualVoltages[s] {
			if v < low || v > high {
				continue
			}
			if found != 0 {
				return 0, false
			}
			found = v
		}
	}
	return found, found != 0
}
