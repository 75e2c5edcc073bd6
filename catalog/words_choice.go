package catalog

// choiceTable holds the words that stand for choices in cells, one group for
// each choice, in the order of Choices (common practice of data sheets).
var choiceTable = [NumFields]string{
	FieldKind: "axial, axiaux, helicoidal, hélicoïde, hélicoïdal; " +
		"centrifugal, centrifuge, centrífugo, centrífuga, zentrifugal, radial, radiaux; " +
		"mixed, mixed flow, diagonal, semi axial, semiaxial, halbaxial, hélico-centrifuge, helicocentrífugo, mixto, mixte, flujo mixto; " +
		"crossflow, cross flow, tangential, tangentiel, tangencial, querstrom, transversal, flux transversal, flujo cruzado, flujo transversal",
	FieldSupply: "dc, Gleichstrom, Gleichspannung, courant continu, corriente continua, continu, continua, cc, direct current; " +
		"ac, Wechselstrom, Wechselspannung, courant alternatif, corriente alterna, alternatif, alterna, ca, alternating current, Drehstrom, triphasé, trifásico",
	FieldPWM: "no, nein, non, n, " + falseWords + ", ohne, sans, sin, without, none, 0, keine, kein, aucun, ninguno, ninguna; " +
		"yes, ja, oui, sí, si, y, j, " + trueWords + ", mit, avec, con, with, x, 1, ok, ✓, ✔, ●, •",
	FieldInStock: "no, " + falseWords + ", " + noneInStock + "; yes, " + trueWords + ", " + someInStock,
	FieldNoiseKind: "sound pressure, pressure, Schalldruck, Schalldruckpegel, pression acoustique, pression sonore, presión sonora, presión acústica, LpA, Lp, SPL; " +
		"sound power, power, Schallleistung, Schalleistung, Schallleistungspegel, puissance acoustique, puissance sonore, potencia sonora, potencia acústica, LwA, Lw, PWL",
}

// BlowerWords lists words for a centrifugal fan that say so only where no word
// of ChoiceWords(FieldKind) stands beside them: a "Querstromgebläse" is none.
func BlowerWords() []string {
	return splitWords("blower, Gebläse, soufflante, soufflerie, turbine, turbina, soplador, sopladora, soplante")
}

// FanWords lists words for a fan of whatever kind.
func FanWords() []string {
	return splitWords("fan, Lüfter, Ventilator, ventilateur, ventilador, aireador, cooling fan, tube, compact, compacto")
}

// TachWords lists words for an output that pulses with the speed.
func TachWords() []string {
	return splitWords("tach, tacho, tachometer, tachymétrique, tachymètre, tacómetro, tacométrica, FG, speed signal, speed sensor, Drehzahlsignal, Tachosignal, pulse, pulses, Impulse, impulsions, pulsos, signal de vitesse, señal de velocidad, rpm, frequency generator, Frequenzausgang")
}

// AlarmWords lists words for an output that only tells a standstill.
func AlarmWords() []string {
	return splitWords("RD, locked rotor, rotor lock, lock, alarm, Alarm, alarme, alarma, Blockierschutz, Blockiermeldung, Stillstand, rotation detection, rotor bloqué, rotor bloqueado")
}

// Words for a truth and its opposite, as spreadsheets write them.
const (
	trueWords  = "true, wahr, vrai, verdadero"
	falseWords = "false, falsch, faux, falso"
)

// Words for some pieces in stock, and for none.
const (
	someInStock = "in stock, available, auf Lager, ab Lager, lieferbar, verfügbar, vorrätig, ja, en stock, disponible, oui, en existencia, sí, si"
	noneInStock = "out of stock, not available, sold out, nicht lieferbar, nicht verfügbar, ausverkauft, nein, rupture, en rupture, rupture de stock, épuisé, indisponible, non, agotado, agotada, no disponible, sin existencias, sin stock"
)

// ShapeWords lists words for a square and for a round frame, as they stand in
// size cells.
func ShapeWords() (square, round []string) {
	return splitWords("sq, square, quadratisch, quadrat, carré, cuadrado"),
		splitWords("dia, diam, diameter, round, rund, rond, diamètre, redondo, diámetro, Durchmesser")
}

// SideWords lists words for one side of the frame that are not said of the size
// as a whole.
func SideWords() []string {
	return splitWords("width, Breite, largeur, ancho, anchura, length, Länge, longueur, longitud, largo")
}

// WeightingWords lists words for A-weighted levels, and for levels without any
// weighting.
func WeightingWords() (weighted, unweighted []string) {
	return splitWords("A weighted, A weighting, A bewertet, A Bewertung, pondéré A, pondération A, ponderado A, ponderación A, LpA, LwA"),
		splitWords("unweighted, linear, lin, flat, unbewertet, nicht bewertet, linéaire, non pondéré, lineal, sin ponderar, no ponderado, Z")
}

// BandWords lists words that stand beside the frequency of a band in the header
// of its column, besides those of the fields for noise.
func BandWords() []string {
	return splitWords("band, octave, third octave, mid band, centre, center, frequency, freq, level, f, fm, fc, re, ref, " +
		"Oktave, Oktav, Terz, Mitten, Mittenfrequenz, Frequenz, Pegel, bande, octave, tiers d'octave, fréquence, centrale, niveau, banda, octava, tercio, frecuencia, central, nivel")
}
