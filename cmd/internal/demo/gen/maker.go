package gen

import (
	"fmt"
	"math"
	"strings"
)

const (
	supplyDC = "dc"
	supplyAC = "ac"
)

// maker is an invented maker and its habits.
type maker struct {
	name string
	part func(f family, b build) string

	// How its fans differ from the trade's mean, and how its labels differ from its fans.
	sound                float64 // dB on the level
	flow, pressure, hush float64 // label promises: shares on top, dB taken off

	// How it writes labels.
	levelStep float64 // dB
	power     bool    // the level is a sound power level
	distance  Number  // m, of the sound pressure level, where it says so
	lowest    int     // octave it states, of families measured by octaves
	lifeTemp  float64 // °C
	ball, sleeve, fluid,
	axial, radial, mixed, cross, lead3 string // its words

	// Share of labels that lack a value, and of families sold with a full curve.
	noPressure, noLevel, noSpeed, noFlow, noPrice, curves float64

	life     float64 // times the life of the bearing
	price    float64 // times the trade's mean
	currency string
	supplier string
	warranty string // months
	customs  string // number of the customs tariff as this maker's papers give it
}

// The distributor's two branches.
const (
	branchNorth = "Toernsund Nord"
	branchSouth = "Toernsund Süd"
)

const (
	wirbelhof = iota
	nordwehe
	quelmar
	veltriva
	tsurukaze
	ombrasco
	marnfeld
	harrowick
	lenzkamp
)

// makers are nine inventions. No maker of fans or electronics of these names was found; a part number's scheme is each maker's own.
var makers = [...]maker{
	wirbelhof: {name: "Wirbelhof", part: partWirbelhof, sound: -2.4, levelStep: 1, distance: known(1), lowest: at63, lifeTemp: 40,
		ball: "Kugellager", sleeve: "Gleitlager", fluid: "Sinterec-Gleitlager", axial: "Axiallüfter", radial: "Radiallüfter", lead3: "3-adrig",
		noPressure: 0.02, noLevel: 0.02, noSpeed: 0.01, noPrice: 0.02, curves: 0.75,
		life: 1, price: 1.55, currency: "EUR", supplier: branchNorth, warranty: "36", customs: "8414 59 25"},
	nordwehe: {name: "Nordwehe", part: partNordwehe, sound: -4.2, levelStep: 0.1, distance: known(1), lowest: at125, lifeTemp: 40,
		ball: "ball", sleeve: "sleeve", fluid: "fluid", axial: "axial", radial: "radial", lead3: "3",
		noPressure: 0.03, noSpeed: 0.02, curves: 0.5,
		life: 1, price: 1.9, currency: "EUR", supplier: branchNorth, warranty: "72", customs: "84145925"},
	quelmar: {name: "Quelmar", part: partQuelmar, sound: 1.4, flow: 0.06, pressure: 0.09, hush: 2.4, levelStep: 1, lifeTemp: 25,
		ball: "2BB", sleeve: "sleeve", fluid: "hydraulic", axial: "Axial fan", radial: "Blower", lead3: "3 wire",
		noPressure: 0.14, noLevel: 0.06, noSpeed: 0.05, noFlow: 0.03, noPrice: 0.04, curves: 0.1,
		life: 0.45, price: 0.62, currency: "USD", supplier: branchSouth, warranty: "12", customs: "8414.59"},
	veltriva: {name: "Veltriva", part: partVeltriva, sound: 0.4, flow: 0.02, levelStep: 1, distance: known(1), lifeTemp: 40,
		ball: "Kugel", sleeve: "Gleit", fluid: "Gleit", axial: "Axial", radial: "Radial", lead3: "3 Litzen",
		noPressure: 0.08, noLevel: 0.04, noSpeed: 0.04, noPrice: 0.03, curves: 0.35,
		life: 1, price: 1.15, currency: "EUR", supplier: branchNorth, warranty: "24", customs: "8414 59 25"},
	tsurukaze: {name: "Tsurukaze", part: partTsurukaze, sound: -0.8, levelStep: 1, distance: known(1), lifeTemp: 60,
		ball: "ball", sleeve: "sleeve", fluid: "fluid", axial: "axial", radial: "Gebläse", lead3: "3",
		noPressure: 0.02, noLevel: 0.02, noSpeed: 0.01, curves: 0.6,
		life: 1.9, price: 1.3, currency: "USD", supplier: branchSouth, warranty: "24", customs: "8414595090"},
	ombrasco: {name: "Ombrasco", part: partOmbrasco, sound: 1.1, flow: 0.03, pressure: 0.04, hush: 1, levelStep: 1, lifeTemp: 40,
		ball: "Kugel", sleeve: "Gleit", fluid: "Gleit", axial: "Axial", radial: "Radial", lead3: "3",
		noPressure: 0.16, noLevel: 0.09, noSpeed: 0.08, noFlow: 0.03, noPrice: 0.05, curves: 0.05,
		life: 0.8, price: 0.75, currency: "EUR", supplier: branchSouth, warranty: "12", customs: "8414 59 25"},
	marnfeld: {name: "Marnfeld", part: partMarnfeld, sound: -0.6, levelStep: 1, power: true, lifeTemp: 40,
		ball: "Kugellager", sleeve: "Gleitlager", fluid: "Gleitlager", axial: "Axiallüfter", radial: "Radialgebläse", lead3: "3",
		noPressure: 0.03, noLevel: 0.03, noSpeed: 0.03, noPrice: 0.03, curves: 0.6,
		life: 1, price: 1.35, currency: "EUR", supplier: branchNorth, warranty: "24", customs: "8414 59 35"},
	harrowick: {name: "Harrowick", part: partHarrowick, sound: 0.2, levelStep: 1, power: true, lifeTemp: 50,
		ball: "ball", sleeve: "sleeve", fluid: "sleeve", axial: "axial fan", radial: "centrifugal blower", lead3: "3",
		noPressure: 0.06, noLevel: 0.04, noSpeed: 0.04, noPrice: 0.05, curves: 0.2,
		life: 1.1, price: 1.2, currency: "USD", supplier: branchSouth, warranty: "18", customs: "8414.59.6590"},
	lenzkamp: {name: "Lenzkamp", part: partLenzkamp, sound: -0.3, levelStep: 1, distance: known(2), lifeTemp: 30,
		ball: "Kugel", sleeve: "Gleit", fluid: "Gleit", axial: "Axiallüfter", mixed: "Diagonallüfter", cross: "Querstromlüfter", lead3: "3-adrig",
		noPressure: 0.1, noLevel: 0.04, noSpeed: 0.05, noPrice: 0.04, curves: 0.3,
		life: 0.7, price: 1.4, currency: "EUR", supplier: "", warranty: "24", customs: "8414 59 25"},
}

// kindWord is the maker's word for a kind.
func (m *maker) kindWord(kind string) string {
	switch kind {
	case kindRadial:
		return m.radial
	case kindMixed:
		return m.mixed
	case kindCross:
		return m.cross
	default:
		return m.axial
	}
}

// bearingWord is the maker's word for a bearing.
func (m *maker) bearingWord(code byte) string {
	switch code {
	case 'b':
		return m.ball
	case 'f':
		return m.fluid
	default:
		return m.sleeve
	}
}

// hundreds is a speed as part numbers write it: 5600 → "56".
func hundreds(rpm float64) string { return fmt.Sprintf("%.0f", math.Floor(rpm/100)) }

// option turns a build's lead code into the maker's letters, given for 2, 3, alarm and 4.
func option(leads byte, two, three, alarm, four string) string {
	switch leads {
	case '2':
		return two
	case '3':
		return three
	case 'A':
		return alarm
	default:
		return four
	}
}

// W60A25-12.55-3 : frame, series, depth, volts, hundreds of rpm, leads; AC carries the mains frequency.
func partWirbelhof(f family, b build) string {
	tail := option(b.leads, "2", "3", "3R", "4")
	if b.hertz > 0 {
		tail = fmt.Sprintf("%.0f", b.hertz)
	}
	return fmt.Sprintf("W%.0f%s%.0f-%.0f.%s-%s", f.width, f.series, f.depth, b.volts, hundreds(b.grade), tail)
}

// NW60-25/12-51T : frame, depth, volts, hundreds of rpm, T tach, P PWM.
func partNordwehe(f family, b build) string {
	return fmt.Sprintf("NW%.0f-%.0f/%.0f-%s%s", f.width, f.depth, b.volts, hundreds(b.grade), option(b.leads, "", "T", "R", "P"))
}

// QX60K25-51-12.3 : frame, series, depth, hundreds of rpm, volts, leads.
func partQuelmar(f family, b build) string {
	tail := option(b.leads, "2", "3", "3A", "4")
	if b.hertz > 0 {
		tail = fmt.Sprintf("H%.0f", b.hertz/10)
	}
	return fmt.Sprintf("QX%.0f%s%.0f-%s-%.0f.%s", f.width, f.series, f.depth, hundreds(b.grade), b.volts, tail)
}

// V.120.38.230-26/50 : frame, depth, volts, hundreds of rpm at 50 Hz, mains frequency or leads.
func partVeltriva(f family, b build) string {
	if b.hertz > 0 {
		return fmt.Sprintf("V.%.0f.%.0f.%.0f-%s/%.0f", f.frame(), f.depth, b.volts, hundreds(b.grade), b.hertz)
	}
	return fmt.Sprintf("V.%.0f.%.0f.%.0f-%s%s", f.frame(), f.depth, b.volts, hundreds(b.grade), option(b.leads, "", ".T", ".A", ".P"))
}

// TK-F60D25-53S12 : frame, depth, hundreds of rpm, S tach, L locked rotor, P PWM, volts.
func partTsurukaze(f family, b build) string {
	return fmt.Sprintf("TK-%s%.0fD%.0f-%s%s%.0f", f.series, f.width, f.depth, hundreds(b.grade), option(b.leads, "N", "S", "L", "P"), b.volts)
}

// OMB-625B54K3 : frame in cm, depth in mm, B 12 V, hundreds of rpm, bearing, leads.
func partOmbrasco(f family, b build) string {
	volts := map[float64]string{5: "A", 12: "B", 24: "C", 48: "D", 115: "U", 230: "V"}[b.volts]
	tail := option(b.leads, "2", "3", "3A", "4")
	if b.hertz > 0 {
		tail = fmt.Sprintf("H%.0f", b.hertz/10)
	}
	return fmt.Sprintf("OMB-%.0f%.0f%s%s%s%s", f.frame()/10, f.depth, volts, hundreds(b.grade), strings.ToUpper(string(f.bearing)), tail)
}

// MRB 97.33-24 370 T : housing, width, volts, tens of rpm, T tach, P PWM; with blanks.
func partMarnfeld(f family, b build) string {
	tail := option(b.leads, "", " T", " A", " P")
	if b.hertz > 0 {
		tail = fmt.Sprintf(" ~%.0f", b.hertz)
	}
	return fmt.Sprintf("MRB %.0f.%.0f-%.0f %.0f%s", f.width, f.depth, b.volts, b.grade/10, tail)
}

// HX236-098-58/12T : frame and depth in hundredths of an inch, hundreds of rpm, volts.
func partHarrowick(f family, b build) string {
	tail := option(b.leads, "", "T", "A", "M")
	if b.hertz > 0 {
		tail = fmt.Sprintf("-%.0fHZ", b.hertz)
	}
	prefix := "HX"
	if f.kind == kindRadial {
		prefix = "HB"
	}
	return fmt.Sprintf("%s%.0f-%03.0f-%s/%.0f%s", prefix, f.width/0.254, f.depth/0.254, hundreds(b.grade), b.volts, tail)
}

// LQ180-24-30 : letters for the kind, width, volts, hundreds of rpm.
func partLenzkamp(f family, b build) string {
	letter := map[string]string{kindCross: "Q", kindMixed: "D"}[f.kind]
	if letter == "" {
		letter = "A" + fmt.Sprintf("%.0f.", f.depth)
	}
	tail := option(b.leads, "", "-T", "-A", "-S")
	if b.hertz > 0 {
		tail = fmt.Sprintf("-%.0f", b.hertz)
	}
	return fmt.Sprintf("L%s%.0f-%.0f-%s%s", letter, f.width, b.volts, hundreds(b.grade), tail)
}
