package devicefile

import (
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Table is a spectrum that was read from a table of levels by band.
type Table struct {
	acoustics.BandReading
	Weighting acoustics.Weighting // of the levels as they stood in the table
	Stated    bool                // the table, or who asked, said the weighting; else it is assumed
	Notes     []string            // how it was read, what it lacks and what was left out, where a person should know
}

// ReadTable reads a table of levels by band. The name is as the device file has
// it: any path, relative ones from the folder of the device file. Where the
// device file says the weighting it overrules the table's own. An error that
// has a method Hint() string names its mend.
type ReadTable func(name string, weighting quantity.Known[acoustics.Weighting]) (Table, error)

// mostTables is how many tables a device file may have read.
const mostTables = 100

// spectrum is where a spectrum comes from.
type spectrum struct {
	Table
	file string // empty: of the device file itself
	held bool   // against a level that was stated beside it
}

// spectra reads everything that is written by bands.
type spectra struct {
	*problems
	read   ReadTable
	tables map[tableKey]*tableRead
	from   map[*acoustics.Thirds]spectrum
}

type tableKey struct {
	name      string
	weighting quantity.Known[acoustics.Weighting]
}

type tableRead struct {
	table Table
	err   error
}

// spectra reads what the document tells by bands. Where no level is stated beside
// them, it is theirs.
func (d *document) spectra(found *problems, read ReadTable) map[*acoustics.Thirds]spectrum {
	s := &spectra{problems: found, read: read, tables: map[tableKey]*tableRead{}, from: map[*acoustics.Thirds]spectrum{}}
	s.take(&d.room.heard, &d.room.level)
	for i := range d.paths {
		s.take(&d.paths[i].measured.heard, &d.paths[i].measured.level)
	}
	for i := range d.noise {
		s.take(&d.noise[i].heard, &d.noise[i].level)
	}
	for i := range d.measured {
		s.take(&d.measured[i].heard, &d.measured[i].level)
	}
	return s.from
}

// apart is how far the sum of bands and a level may lie apart, in dB: rounding,
// edges that were not measured, a meter beside an analyser (common practice).
const apart = 1.5

// agree says whether a level can be that of bands, both in dB(A).
func agree(a, b float64) bool { return math.Abs(a-b) <= apart }

// take reads the bands of one sound and holds them against its level.
func (s *spectra) take(h *heard, l *placed[quantity.SoundPressureLevel]) {
	sp, at, ok := s.of(h)
	if !ok {
		return
	}
	sum := sp.Thirds.A()
	switch {
	case !(sum.DB() >= 0 && sum.DB() <= loudestLevel):
		s.addf(at, "levels are in dB re 20 µPa; those below full scale, dBFS, say nothing of loudness",
			"the bands make %s together, outside the possible 0 to %d dB(A)", tenths(sum), loudestLevel)
		return
	case !l.given:
		*l = placed[quantity.SoundPressureLevel]{sum, true, at}
	case !agree(sum.DB(), l.v.DB()):
		s.addf(at, mixedUp(&sp, l.v), "the bands make %s together, the level is %s", tenths(sum), level(l.v))
		return
	default:
		sp.held = true
	}
	h.spectrum = &sp.Thirds
	s.from[h.spectrum] = sp
}

// of gives the spectrum of a sound and its place; not ok where none is told, or
// something is wrong with it.
func (s *spectra) of(h *heard) (sp spectrum, at Place, ok bool) {
	switch {
	case h.bands.given:
		sp.Weighting, sp.Stated = h.weighting.v, true
		sp.BandReading, ok = s.spectrum(bandsKey, h.bands.at, h.bands.v, h.weighting.v)
		return sp, h.bands.at, ok
	case h.file.given:
		sp.file = h.file.v
		sp.Table, ok = s.table(h)
		return sp, h.file.at, ok
	case h.weighting.given && h.bands.at == Place{}:
		s.addf(h.weighting.at, "give bands, or bands_file", "a weighting without levels by band")
	}
	return sp, at, false
}

// table reads a table, each once.
func (s *spectra) table(h *heard) (t Table, ok bool) {
	key := tableKey{h.file.v, known(h.weighting)}
	got := s.tables[key]
	switch {
	case got != nil:
	case s.read == nil:
		s.addf(h.file.at, "write the levels into this file: bands: {125: 38, …}", "%s: tables of levels cannot be read here", bandsFileKey)
		return t, false
	case len(s.tables) == mostTables:
		s.addf(h.file.at, "", "%s: more than %d tables", bandsFileKey, mostTables)
		return t, false
	default:
		got = &tableRead{}
		got.table, got.err = s.read(key.name, key.weighting)
		s.tables[key] = got
	}
	if got.err != nil {
		s.add(Problem{At: h.file.at, Reason: bandsFileKey + ": " + got.err.Error(), Hint: hintOf(got.err), Err: got.err})
	}
	return got.table, got.err == nil
}

// mixedUp says what may have been mixed up where bands and level disagree: the
// weighting, if the other one makes them agree.
func mixedUp(sp *spectrum, l quantity.SoundPressureLevel) string {
	other, mend := acoustics.Thirds{}, "leave bands_weighting out, or write none"
	for i, v := range sp.Thirds {
		a := float64(acoustics.AWeighting(acoustics.ThirdHz(i)))
		if sp.Weighting == acoustics.AWeighted {
			other[i] = v + a // as they stood there
			continue
		}
		other[i] = v - a
		mend = "write bands_weighting: A"
	}
	taken := weightedWords[acoustics.AWeighted-sp.Weighting]
	if agree(other.A().DB(), l.DB()) {
		return fmt.Sprintf("taken as %s they make %s and agree: %s", taken, tenths(other.A()), mend)
	}
	return "check that both are of the same place and the same state, and how the bands are weighted"
}

// weightedWords names weightings in a sentence, by acoustics.Weighting.
var weightedWords = [...]string{"unweighted", "A-weighted"}

// tenths writes a level to a tenth.
func tenths(l quantity.SoundPressureLevel) string {
	return number(math.Round(10*l.DB())/10) + " dB(A)"
}
