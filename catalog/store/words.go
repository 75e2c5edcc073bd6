package store

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/index"
)

// wordsOf gives what the word index holds of a fan: its names and codes, its
// texts, and as words how it is built and what it runs on.
func wordsOf(f *catalog.Fan) index.Row {
	r := index.Row{Part: f.Part, Texts: []string{f.Maker, frameWords(f), supplyWords(f), f.Connector, f.Bearing, f.Supplier, f.Description}}
	if f.OrderCode != "" {
		r.Codes = []string{f.OrderCode}
	}
	for _, e := range f.Extra {
		r.Texts = append(r.Texts, e.Text)
	}
	return r
}

// frameWords gives "axial 60x60x25 60mm".
func frameWords(f *catalog.Fan) string {
	kind, _ := f.Kind.Get()
	words := []string{kind.String()}
	var sizes []string
	for _, id := range []catalog.FieldID{catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth} {
		if size := catalog.Fields[id].Format(f); size != "" {
			sizes = append(sizes, size)
		}
	}
	words = append(words, strings.Join(sizes, "x"))
	if width := catalog.Fields[catalog.FieldWidth].Format(f); width != "" {
		words = append(words, width+"mm")
	}
	return strings.Join(words, " ")
}

// supplyWords gives "12V DC 12VDC PWM".
func supplyWords(f *catalog.Fan) string {
	supply, _ := f.Supply.Get()
	words := []string{supply.String()}
	if volts := catalog.Fields[catalog.FieldVoltage].Format(f); volts != "" {
		words = append(words, volts+"V", volts+"V"+supply.String())
	}
	if pwm, _ := f.PWM.Get(); pwm {
		words = append(words, "pwm")
	}
	return strings.Join(words, " ")
}
