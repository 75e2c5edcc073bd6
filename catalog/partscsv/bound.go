package partscsv

import (
	"lowsone/catalog"
)

// readAsValue is the warning of a cell that bounds its value: the bound is better
// than nothing, but it is not the value.
var readAsValue = map[catalog.CellMeaning]string{
	catalog.Most:  "an upper bound is read as the value",
	catalog.Least: "a lower bound is read as the value",
}

// boundNames name the bounds in a remark.
var boundNames = map[catalog.CellMeaning]string{catalog.Most: "an upper bound", catalog.Least: "a lower bound"}

// bounded tells of a value that stands as a bound, "< 20", and of one on the side
// that is not the cautious one, that the fan may be worse.
func (r *Reader) bounded(c *column, value float64, text string) (told bool) {
	said := r.sorted.amounts[0].said
	which := catalog.Most
	switch {
	case r.sorted.amounts[0].ranged(), said.has(catalog.Most) == said.has(catalog.Least):
		return false
	case said.has(catalog.Least):
		which = catalog.Least
	case c.field == catalog.FieldTempMax:
		return false // the highest temperature is a bound
	}
	worse := c.worseThan(which)
	d := c.def()
	r.row.warn(c, readAsValue[which]+worse, "%s %q is %s: read as %s%s", d.Title, clipped(text), boundNames[which], show(d, value), worse)
	return true
}

// worseThan says what a fan may do beyond a bound on the side that is not the
// cautious one; empty where the bound is the worst case.
func (c *column) worseThan(which catalog.CellMeaning) string {
	switch {
	case which == catalog.Most && (c.field == catalog.FieldAirflow || c.field == catalog.FieldStaticPressure):
		return "; the fan may give less"
	case which == catalog.Most && ends[c.field] == endLow:
		return "; it may be less"
	case which == catalog.Least && ends[c.field] == endHigh:
		return "; it may be more"
	}
	return ""
}
