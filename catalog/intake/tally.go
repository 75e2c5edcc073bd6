package intake

import (
	"cmp"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/quantity"
)

// tally counts what the rows had to say, equal warnings together.
type tally struct {
	columns    []partscsv.Column
	warnings   map[warningKey]*partscsv.Warning
	lacks      [catalog.NumFields]int
	unrankable int
}

type warningKey struct {
	column int
	reason string
}

func newTally(columns []partscsv.Column) *tally {
	return &tally{columns: columns, warnings: map[warningKey]*partscsv.Warning{}}
}

// remarks adds the warnings among the remarks of a row.
func (t *tally) remarks(list []partscsv.Remark, line int) {
	for i := range list {
		r := &list[i]
		if r.Warning == "" {
			continue
		}
		key := warningKey{r.Column, r.Warning}
		w := t.warnings[key]
		if w == nil {
			w = &partscsv.Warning{Reason: r.Warning, Line: line}
			if r.Column >= 0 && r.Column < len(t.columns) {
				w.Header = t.columns[r.Column].Header
			}
			t.warnings[key] = w
		}
		w.Count++
	}
}

// asked are the fields that searching and ranking ask for first.
var asked = []catalog.FieldID{
	catalog.FieldKind, catalog.FieldWidth, catalog.FieldVoltage, catalog.FieldAirflow,
	catalog.FieldStaticPressure, catalog.FieldNoise,
}

// fan adds what a fan does not say.
func (t *tally) fan(f *catalog.Fan) {
	for _, id := range asked {
		if _, origin := catalog.Fields[id].Get(f); origin == quantity.Unknown {
			t.lacks[id]++
		}
	}
	if !rankable(f) {
		t.unrankable++
	}
}

// rankable says whether a ranking can take the fan: it needs a curve or one of
// its ends, from which the other is estimated, and a crossflow fan has no curve
// of a known shape.
func rankable(f *catalog.Fan) bool {
	moves := len(f.Curve) > 0 || f.Airflow.Known() || f.StaticPressure.Known()
	return moves && f.Kind.Or(0) != catalog.Crossflow
}

// lacking lists the counts that are not zero.
func (t *tally) lacking() []Lack {
	var list []Lack
	for _, id := range asked {
		if n := t.lacks[id]; n > 0 {
			list = append(list, Lack{id, n})
		}
	}
	return list
}

// sorted lists the warnings, the most frequent first.
func (t *tally) sorted() []partscsv.Warning {
	list := make([]partscsv.Warning, 0, len(t.warnings))
	for _, w := range t.warnings {
		list = append(list, *w)
	}
	slices.SortFunc(list, func(a, b partscsv.Warning) int {
		return cmp.Or(cmp.Compare(b.Count, a.Count), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Header, b.Header), cmp.Compare(a.Reason, b.Reason))
	})
	return list
}
