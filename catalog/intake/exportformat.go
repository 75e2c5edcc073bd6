package intake

import (
	"cmp"

	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
)

// isExport says whether the file is an export of a catalogue. How such a file is
// written is known; nothing in its cells must make it look otherwise.
func (r *run) isExport() bool {
	head := make([]byte, partscsv.IsExportHead)
	n, _ := r.in.ReadAt(head, 0) // what cannot be read shows when all of it is
	return partscsv.IsExport(head[:n])
}

// exportFormat says how an export is written, but for what the person says.
func exportFormat(o tabular.Options) tabular.Options {
	o.Delimiter = cmp.Or(o.Delimiter, ',')
	o.Encoding = cmp.Or(o.Encoding, "utf-8")
	o.Decimal = cmp.Or(o.Decimal, tabular.Point)
	o.HeaderLine = cmp.Or(o.HeaderLine, 1)
	return o
}

// asGiven tells as given only what the person gave.
func asGiven(d *tabular.Dialect, given *tabular.Options) {
	d.Delimiter.Forced = given.Delimiter != 0
	d.Encoding.Forced = given.Encoding != ""
	d.Decimal.Forced = given.Decimal != 0
	d.HeaderLine.Forced = given.HeaderLine != 0
}
