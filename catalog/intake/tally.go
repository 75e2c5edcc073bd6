package intake

import (
	"cmp"
	"maps"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
)

// tally counts what the rows had to say, equal warnings together.
type tally struct {
	columns  []partscsv.Column
	warnings map[warningKey]*partscsv.Warning
}

// lack is what one fan does not say: a bit for each of asked, and one more where
// no ranking can take the fan.
type lack uint8

func lackOf(f *catalog.Fan) lack {
	var l lack
	for i, id := range asked {
		if _, origin := catalog.Fields[id].Get(f); origin == quantity.Unknown {
			l |= 1 << i
		}
	}
	if !rankable(f) {
		l |= unrankable
	}
	return l
}

var unrankable = lack(1) << len(asked)

type warningKey struct {
	column int
	reason string
}

func newTally(columns []partscsv.Column) tally {
	return tally{columns: columns, warnings: map[warningKey]*partscsv.Warning{}}
}

// remarks adds the warnings among the remarks of a row.
func (t tally) remarks(list []partscsv.Remark, line int) {
	for i := range list {
		r := &list[i]
		if r.Warning == "" {
			continue
		}
		key := warningKey{r.Column, r.Warning}
		w := t.warnings[key]
		if w == nil {
			w = &partscsv.Warning{Reason: r.Warning, Line: line, Example: r.Example}
			if r.Column >= 0 && r.Column < len(t.columns) {
				w.Header = t.columns[r.Column].Header
			}
			t.warnings[key] = w
		}
		w.Count++
	}
}

// mostKinds is how many kinds of warnings are told apart. A column of the wrong
// kind may have another one in every row.
const mostKinds = 1000

// furtherKinds stands for all kinds of a column beyond.
const furtherKinds = "further warnings, of other kinds"

// merge adds the warnings of rows that come behind.
func (t tally) merge(later tally) {
	if len(t.warnings)+len(later.warnings) > mostKinds {
		t.mergeInOrder(later)
		return
	}
	for key, w := range later.warnings {
		t.put(key, w)
	}
}

// mergeInOrder is merge where there is no room for all: what comes first in the
// file has it.
func (t tally) mergeInOrder(later tally) {
	keys := slices.SortedFunc(maps.Keys(later.warnings), func(a, b warningKey) int {
		return cmp.Or(cmp.Compare(later.warnings[a].Line, later.warnings[b].Line), cmp.Compare(a.column, b.column), cmp.Compare(a.reason, b.reason))
	})
	for _, key := range keys {
		w := later.warnings[key]
		if t.warnings[key] == nil && len(t.warnings) >= mostKinds {
			key.reason = furtherKinds
			w = &partscsv.Warning{Header: w.Header, Reason: furtherKinds, Count: w.Count, Line: w.Line}
		}
		t.put(key, w)
	}
}

func (t tally) put(key warningKey, w *partscsv.Warning) {
	if have := t.warnings[key]; have != nil {
		have.Count += w.Count
		return
	}
	t.warnings[key] = w
}

// asked are the fields that searching and ranking ask for first.
var asked = [...]catalog.FieldID{
	catalog.FieldKind, catalog.FieldWidth, catalog.FieldVoltage, catalog.FieldAirflow,
	catalog.FieldStaticPressure, catalog.FieldNoise,
}

// rankable says whether a ranking can take the fan: it needs a curve or one of
// its ends, from which the other is estimated, and a crossflow fan has no curve
// of a known shape.
func rankable(f *catalog.Fan) bool {
	moves := len(f.Curve) > 0 || f.Airflow.Known() || f.StaticPressure.Known()
	return moves && f.Kind.Or(0) != catalog.Crossflow
}

// lacking lists how many of the fans that stand lack what, but for what none
// lacks, and how many no ranking can take. Their notes are what they lack.
func lacking(s *store.Standing) (list []Lack, unrankables int) {
	var counts [8]int
	for note, fans := range s.Notes {
		for i := range counts {
			counts[i] += note >> i & 1 * fans
		}
	}
	for i, id := range asked {
		if n := counts[i]; n > 0 {
			list = append(list, Lack{id, n})
		}
	}
	return list, counts[len(asked)]
}

// sorted lists the warnings, the most frequent first.
func (t tally) sorted() []partscsv.Warning {
	list := make([]partscsv.Warning, 0, len(t.warnings))
	for _, w := range t.warnings {
		list = append(list, *w)
	}
	slices.SortFunc(list, func(a, b partscsv.Warning) int {
		return cmp.Or(cmp.Compare(b.Count, a.Count), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Header, b.Header), cmp.Compare(a.Reason, b.Reason))
	})
	return list
}
