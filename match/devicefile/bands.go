package devicefile

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// heard is how one sound is written by bands.
type heard struct {
	bands     placed[[]bandAt]
	weighting placed[acoustics.Weighting]
	file      placed[string]
	spectrum  *acoustics.Thirds // of these, once they are read; nil without
}

// bandAt is the level of a band with the places of its frequency and its level.
type bandAt struct {
	quantity.BandLevel
	at, level Place
}

// weightings lists the names of weightings, by acoustics.Weighting.
var weightings = []string{"none", "A"}

// Keys of levels by band.
const (
	bandsKey     = "bands"
	bandsFileKey = "bands_file"
)

// bandKeys are the keys by which a sound is told by bands.
func bandKeys[S any](example string, at func(*S) *heard) []entry {
	return []entry{
		bandsLeaf(bandsKey, "levels by band in dB: octaves from 125 Hz to 4 kHz or third octaves from 100 Hz to 8 kHz, or more of them", example,
			func(s *S) *placed[[]bandAt] { return &at(s).bands }),
		choiceLeaf("bands_weighting", "how the levels by band are weighted, none where nothing says it", weightings, acoustics.Unweighted,
			func(s *S) *placed[acoustics.Weighting] { return &at(s).weighting }),
		textLeaf(bandsFileKey, "a table of levels by band, as an app or an analyser writes it, by its name from the folder of this file", "levels.csv",
			func(s *S) *placed[string] { return &at(s).file }).not(bandsKey, "keep one of them"),
	}
}

// bandsLeaf reads levels by band. Where something is wrong with them their place
// alone is kept.
func bandsLeaf[S any](name, about, example string, at func(*S) *placed[[]bandAt]) entry {
	return entry{name: name, about: about, example: example, form: form{kind: formBands},
		read: func(r *reader, n *node, _ Place, into any) {
			all, ok := r.bands(name, n)
			*at(into.(*S)) = placed[[]bandAt]{all, ok, n.at}
		}}
}

// noiseBandsEntry reads the band levels of a fan, which the tables that read
// them later take as they are: so they are held to be a spectrum here.
func noiseBandsEntry(d *catalog.Field) entry {
	return entry{name: d.Name, about: "its " + d.Title + ", unweighted", form: form{kind: formBands}, hidden: true,
		read: func(r *reader, n *node, _ Place, into any) {
			all, ok := r.bands(d.Name, n)
			if !ok {
				return
			}
			if _, ok = r.spectrum(d.Name, n.at, all, acoustics.Unweighted); !ok {
				return
			}
			v := catalog.Value{Bands: levelsOf(all)}
			catalog.SortBands(v.Bands)
			f := into.(*fan)
			f.values = append(f.values, fanValue{Value{d, v}, n.at})
		}}
}

// bandsHint shows both ways to write levels by band.
const bandsHint = "write each band with its level: {63: 41, 125: 38}, or 63:41; 125:38"

// bands reads {63: 41, 125: 38}, or the text 63:41; 125:38 as a parts list has
// it; not ok where nothing is stated or something is wrong.
func (r *reader) bands(name string, n *node) (all []bandAt, ok bool) {
	before, pairs := r.count(), n.pairs
	switch n.shape {
	case mapping:
	case listing:
		r.addf(n.at, bandsHint, "%s is %s, not bands with their levels", name, shapeNames[n.shape])
	default:
		text, given := r.word(name, n)
		if !given {
			return nil, false
		}
		if pairs = r.bandPairs(name, n.at, text); len(pairs) == 0 && r.count() == before {
			r.addf(n.at, bandsHint, "%s %s holds no band", name, quoted(text))
		}
	}
	for _, p := range pairs {
		if b, ok := r.band(name, p); ok {
			all = append(all, b)
		}
	}
	return all, len(all) > 0 && r.count() == before
}

// bandPairs cuts a text into bands with their levels.
func (r *reader) bandPairs(name string, at Place, text string) (pairs []pair) {
	for part := range strings.SplitSeq(text, ";") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		hz, db, ok := strings.Cut(part, ":")
		if db = strings.TrimSpace(db); !ok || db == "" {
			r.addf(at, bandsHint, "%s: %s is no band with its level", name, quoted(part))
			continue
		}
		pairs = append(pairs, pair{strings.TrimSpace(hz), at, &node{at: at, shape: word, word: db}})
	}
	return pairs
}

// band reads one band and its level; not ok where the level is unknown or
// something is wrong.
func (r *reader) band(name string, p pair) (b bandAt, ok bool) {
	hz, err := parseBand(p.key)
	if err != nil {
		r.refuse(name, p.at, err)
		return b, false
	}
	if p.value.shape == empty {
		r.addf(p.at, "write its level behind the colon, or leave the band out", "%s: no level stands at %s", name, quoted(p.key))
		return b, false
	}
	text, ok := r.word(name, p.value)
	if !ok {
		return b, false
	}
	db, err := parseBandLevel(text)
	if err != nil {
		r.refuse(name, p.value.at, err)
		return b, false
	}
	return bandAt{quantity.BandLevel{Frequency: hz, Level: db}, p.at, p.value.at}, true
}

// parseBand reads a frequency: 63, 250 Hz, 1k or 1 kHz.
func parseBand(text string) (quantity.Frequency, error) {
	full := text
	if strings.HasSuffix(full, "k") {
		full += "Hz"
	}
	v, err := quantity.ParseAs[quantity.Frequency](full, quantity.PreferredUnit(quantity.DimFrequency))
	if err != nil {
		return 0, &fault{quoted(text) + " is no frequency", pointHint(text, "write the middle of the band in Hz, such as 63, 250 Hz or 1k")}
	}
	return v, nil
}

// parseBandLevel reads a level: 41, or 41 dB.
func parseBandLevel(text string) (quantity.Decibel, error) {
	bare := text
	if n := len(text) - len("dB"); n > 0 && strings.EqualFold(text[n:], "dB") {
		bare = text[:n]
	}
	v, err := plainNumber(bare)
	switch spelling := quantity.Fold(text); {
	case err == nil:
		return quantity.Decibel(v), nil
	case strings.HasSuffix(spelling, "dba"), strings.HasSuffix(spelling, "db(a)"):
		return 0, &fault{quoted(text) + " is a weighted level", "write the numbers alone, and bands_weighting: A beside them; those of a fan are unweighted"}
	}
	return 0, &fault{quoted(text) + " is no level", pointHint(text, "write the level in dB, such as 41.5")}
}

// pointHint is the mend of a text with a decimal comma, else hint.
func pointHint(text, hint string) string {
	if strings.Contains(text, ",") {
		return "write the decimal mark as a point: " + strings.ReplaceAll(text, ",", ".")
	}
	return hint
}

func levelsOf(all []bandAt) []quantity.BandLevel {
	levels := make([]quantity.BandLevel, len(all))
	for i, b := range all {
		levels[i] = b.BandLevel
	}
	return levels
}

// spectrum makes a spectrum of band levels, and says where what keeps them from
// being one stands.
func (p *problems) spectrum(name string, whole Place, all []bandAt, w acoustics.Weighting) (acoustics.BandReading, bool) {
	reading, err := acoustics.ReadBands(levelsOf(all), w)
	if err == nil {
		return reading, true
	}
	at, hint := whole, ""
	var e *acoustics.BandError
	if errors.As(err, &e) {
		at, hint = placeOfBand(e, whole, all), bandHint(e, w)
	}
	p.addf(at, hint, "%s: %s", name, strings.TrimPrefix(err.Error(), "read band levels: "))
	return reading, false
}

// placeOfBand gives where the band stands that an error is of: of a band that
// stands there twice the second, of what lies between octaves the first.
func placeOfBand(e *acoustics.BandError, whole Place, all []bandAt) Place {
	hz := e.Band.Frequency
	if e.Fault == acoustics.MixedWidths {
		hz = e.Bands[0]
	}
	at, near := whole, math.Inf(1)
	for _, b := range all {
		off := math.Abs(math.Log(float64(b.Frequency / hz)))
		if b.BandLevel == e.Band {
			off = 0
		}
		if off > near || math.IsNaN(off) || math.IsInf(off, 0) {
			continue
		}
		near, at = off, b.at
		if e.Fault == acoustics.TooLoud {
			at = b.level
		}
	}
	return at
}

// bandHint names the mend of what is wrong with bands.
func bandHint(e *acoustics.BandError, w acoustics.Weighting) string {
	switch e.Fault {
	case acoustics.NoBand:
		return fmt.Sprintf("a band goes by its middle, the nearest is %s; single lines of a narrow-band spectrum are not read here", catalog.Number(float64(e.Nearest())))
	case acoustics.TooLoud:
		if w == acoustics.AWeighted {
			return "that is the level with its A-weighting taken off; if these are not weighted, leave bands_weighting out"
		}
		return "levels are in dB re 20 µPa"
	case acoustics.Repeated:
		return "leave one of the two out"
	case acoustics.MixedWidths:
		return "give octaves, or third octaves without a gap"
	}
	return "give octaves from 125 Hz to 4 kHz, or third octaves from 100 Hz to 8 kHz, without a gap"
}
