package catalog

// cellTable holds the words that stand beside numbers in cells.
var cellTable = [numMeanings]string{
	About: "about, approx, approximately, circa, ca, etwa, ungefähr, env, environ, approximativement, aprox, aproximadamente, alrededor",
	Most:  "max, maximum, maximal, maximale, maxi, máx, máximo, máxima, up to, at most, not over, bis zu, höchstens, jusqu'à, jusque, au plus, hasta, less than, unter, unterhalb, below, moins de, inférieur à, menos de, peak",
	Least: "min, minimum, minimal, minimale, mini, mín, mínimo, mínima, at least, from, more than, over, ab, mindestens, mind, über, dès, au moins, plus de, à partir de, desde, al menos, más de, above",
	To:    "to, bis, à, a, hasta, jusqu'à, till, until, thru, through, au, al",
	And:   "and, und, et, y, e",
	From:  "between, zwischen, entre, from, von, vom, de, du, desde, range, Bereich, plage, rango",
	At:    "at, @, bei, in, à, a, en, avec, con, mit, with, im, dans, auf, für, for, pour, para, measured at, gemessen in, mesuré à, distance, Abstand, distancia",
	Plain: "typ, typical, typisch, typique, típico, nom, nominal, nominale, rated, nenn, value, Wert, valeur, valor, each, je, per, pro, par, por, unit, units, Stück, Stücke, Stk, pc, pcs, pce, piece, pieces, pièce, pièces, unidad, unidades, ud, uds, pieza, piezas, ea, free air, freiblasend, frei, free, net, netto, HT, zzgl MwSt, excl, plus, " +
		"operating, ambient, Umgebung, ambiente, ambiante, distance, Abstand, distancia, pulses, pulse, pulses per revolution, rev, revolution, turn, Umdrehung, Umdr, tour, vuelta, Impulse, impulsions, pulsos",
}

// unknownWords are what people write where they do not know a value.
const unknownWords = "-, --, ---, –, —, ., .., ..., …, ?, ??, ???, *, /, //, _, x.x, " +
	"n/a, n.a., n. a., na, #n/a, #nv, null, nil, none given, not available, not applicable, not specified, not stated, not given, not known, unspecified, unknown, unk, tbd, t.b.d., tba, tbc, to be defined, to be determined, to be confirmed, on request, upon request, by request, on application, por, consult, ask, call, see data sheet, see datasheet, see drawing, pending, " +
	"k. a., k.a., ka, k/a, keine angabe, keine angaben, keine daten, unbekannt, nicht bekannt, nicht angegeben, nicht verfügbar, n. v., n.v., nv, auf anfrage, a. anfr., a. anfrage, a.a., folgt, noch offen, offen, siehe datenblatt, s. datenblatt, entfällt, " +
	"n.c., n. c., nc, n.d., n. d., nd, non communiqué, non communiquée, non disponible, non précisé, non renseigné, non spécifié, inconnu, inconnue, à définir, à déterminer, à préciser, sur demande, sur devis, nous consulter, voir fiche, voir fiche technique, " +
	"s/d, s.d., n/d, n/c, sin datos, sin dato, s/i, sin información, no disponible, no especificado, no indicado, no consta, desconocido, desconocida, por definir, por confirmar, a consultar, consultar, bajo pedido, bajo demanda, a petición, ver ficha"

// measureWords are numbers and units in words that are not read.
const measureWords = "sone, sones, phon, phons, bel, bels, decibel, decibels, Dezibel, " +
	"foot, feet, yard, yards, cubic, litre, litres, liter, liters, Liter, gallon, gallons, torr, ounce, ounces, pound, pounds, psi, horsepower, knots, hertz, watt, watts, volt, volts, ampere, amperes, Kubik, Kubikmeter, Fuß, Pfund, PS, pied, pieds, livre, livres, cheval, chevaux, pie, pies, libra, libras, caballos, " +
	"metre, metres, meter, meters, Meter, mètre, mètres, metro, metros, second, seconds, minute, minutes, hour, hours, Sekunde, Minute, Stunde, seconde, heure, heures, segundo, minuto, hora, year, years, Jahr, Jahre, " +
	"one, two, three, four, five, six, seven, eight, nine, ten, dozen, hundred, thousand, million, half, double, twice, times, eins, zwei, drei, vier, fünf, sechs, sieben, acht, neun, zehn, Dutzend, hundert, tausend, halb, doppelt, " +
	"deux, trois, quatre, cinq, six, sept, huit, neuf, dix, douzaine, cent, mille, double, demi, dos, tres, cuatro, cinco, seis, siete, ocho, nueve, diez, docena, cien, ciento, mil, doble, medio, percent, Prozent, pourcent, por ciento"
