package catalog

// headerTable holds the words that name the fields, as makers' sheets and
// dealers' lists of the trade use them (common practice).
var headerTable = [NumFields]headerWords{
	FieldPart: {
		proof: [...]string{
			"MPN, P/N",
			"part number, part, part code, manufacturer part number, manufacturer part, model number",
			"Teilenummer, Teil, Herstellernummer, Hersteller Artikelnummer, Hersteller Teilenummer, Hersteller Bestellnummer, Typenbezeichnung, Typnummer, Herstellertyp",
			"référence fabricant, référence constructeur, numéro de pièce, référence du modèle",
			"número de pieza, número de parte, referencia del fabricante, código del fabricante, pieza",
		},
		hint: [...]string{
			"",
			"model, type, article number, article, item number, catalog number, item, reference, order number, order code, SKU, product code, product number, product, code, ID, name",
			"Modell, Typ, Artikelnummer, Art Nr, Artikel, Sachnummer, Materialnummer, Katalognummer, Referenz, Bestellnummer, Produkt, Produktnummer, Bezeichnung",
			"modèle, type, numéro d'article, code article, article, référence, référence de commande, numéro de commande, produit, code, code art, réf art, nr art, désignation",
			"modelo, tipo, número de artículo, código de artículo, artículo, referencia, número de pedido, código de pedido, producto, código, cód art, ref art, nr art, denominación",
		},
		not: "connector, Stecker, connecteur, conector, drawing, Zeichnung, guard, filter, price, Preis, prix, precio, alternative, successor, Nachfolger",
	},
	FieldMaker: {
		proof: [...]string{
			"",
			"manufacturer, maker, make, brand, mfr, mfg",
			"Hersteller, Herstellername, Marke, Fabrikat",
			"fabricant, marque, constructeur",
			"fabricante, marca",
		},
		not: "part, Nummer, Typ, Artikel, référence, referencia, código, URL, link",
	},
	FieldKind: {
		proof: [...]string{
			"",
			"kind, fan type, fan kind, fan design, blower type, air moving principle",
			"Bauart, Lüfterart, Lüftertyp, Ventilatorart, Ventilatortyp, Gebläseart, Bauform",
			"type de ventilateur, genre, genre de ventilateur",
			"tipo de ventilador, clase, clase de ventilador",
		},
		hint: [...]string{
			"",
			"type, style, design, category, product group, group, construction, product type",
			"Typ, Art, Kategorie, Produktgruppe, Warengruppe, Gruppe, Ausführung, Produkttyp",
			"type, catégorie, famille, groupe, type de produit, exécution",
			"tipo, categoría, familia, grupo, tipo de producto, ejecución",
		},
		not: "connector, Stecker, bearing, Lager, palier, rodamiento, noise, current, voltage, motor, Nummer",
	},
	FieldWidth: {
		proof: [...]string{
			"",
			"width, frame width, frame, frame size, dimensions, outer dimensions, overall dimensions, fan size, diameter",
			"Breite, Rahmenbreite, Rahmen, Rahmenmaß, Rahmengröße, Baugröße, Abmessungen, Außenmaße, Außenabmessungen, Gehäusemaße, Kantenlänge, Durchmesser",
			"largeur, cadre, dimensions, dimensions extérieures, encombrement, cotes, diamètre",
			"ancho, anchura, marco, dimensiones, medidas, medidas exteriores, diámetro",
		},
		hint: [...]string{
			"",
			"size, length, format, nominal size, measurements",
			"Größe, Maße, Länge, Format, Nenngröße, Maß",
			"taille, longueur, format",
			"tamaño, longitud, largo, formato",
		},
		sign: "W, B, L, Ø",
		not: "impeller, Laufrad, roue, rodete, hole, Loch, Bohrung, trou, agujero, orificio, taladro, screw, Schraube, cable, Kabel, câble, lead, wire, Litze, fil, hilo, carton, package, packaging, Verpackung, emballage, embalaje," +
			" hub, shaft, Welle, inlet, outlet, nozzle, cutout, opening, Ausschnitt, Öffnung, pitch, connector, thread, weight, Gewicht, poids, peso, pulse, blade, Flügel, wave, packing, g, kg, gr, lb, oz",
	},
	FieldHeight: {
		proof: [...]string{"", "height, frame height", "Höhe, Rahmenhöhe", "hauteur", "altura, alto"},
		sign:  "H",
		not:   "hole, Loch, altitude, sea, blade, cable, Kabel, connector, Stecker, carton, package, Verpackung",
	},
	FieldDepth: {
		proof: [...]string{
			"",
			"depth, thickness, frame depth",
			"Tiefe, Dicke, Bautiefe, Einbautiefe, Rahmentiefe, Stärke",
			"épaisseur, profondeur",
			"profundidad, espesor, grosor, fondo",
		},
		sign: "D, T, P",
		not:  "hole, Loch, trou, agujero, cable, Kabel, wire, Draht, thread, Lautstärke, Förderstärke, Luft, Strom, packaging, carton, Verpackung",
	},
	FieldHolePitch: {
		proof: [...]string{
			"",
			"hole pitch, hole spacing, hole distance, hole centres, hole centers, hole to hole, mounting pitch, mounting holes, mounting hole spacing, fixing centres, fixing centers, bolt spacing, bolt pattern",
			"Lochabstand, Lochmaß, Lochteilung, Lochbild, Bohrungsabstand, Bohrabstand, Bohrbild, Befestigungsabstand, Befestigungslöcher, Lochmittenabstand",
			"entraxe, entraxe de fixation, entraxe des trous, entraxe de perçage, distance entre trous",
			"distancia entre agujeros, distancia entre orificios, distancia entre taladros, separación de agujeros, paso de agujeros, entre centros, distancia de fijación",
		},
		not: "diameter, Durchmesser, diamètre, diámetro, size",
	},
	FieldVoltage: {
		proof: [...]string{
			"",
			"voltage, rated voltage, nominal voltage, supply voltage, input voltage",
			"Spannung, Nennspannung, Versorgungsspannung, Speisespannung, Anschlussspannung, Eingangsspannung, Spannungsversorgung",
			"tension, tension nominale, tension d'alimentation",
			"tensión, tensión nominal, tensión de alimentación, voltaje, voltaje nominal",
		},
		hint: [...]string{
			"",
			"volts, supply, power supply, operating voltage, working voltage",
			"Volt, Versorgung, Stromversorgung, Betriebsspannung",
			"alimentation, tension de service, tension de fonctionnement",
			"alimentación, tensión de servicio, tensión de trabajo, voltios",
		},
		sign: "U, Un, Ub, V",
		not:  "start, starting, Anlauf, démarrage, arranque, PWM, insulation, isolation, dielectric, Prüfung, signal, control, Steuerung, type, Art, test, proof, tach",
	},
	FieldVoltageMin: {
		proof: [...]string{
			"Umin, Vmin, U min, V min",
			"voltage range, operating voltage range, min voltage, voltage from, lowest voltage",
			"Spannungsbereich, Betriebsspannungsbereich, min Spannung, Spannung von",
			"plage de tension, plage de fonctionnement tension, tension min, tension minimale",
			"rango de tensión, rango de voltaje, margen de tensión, tensión min, tensión mínima, voltaje min",
		},
		hint: [...]string{
			"",
			"operating voltage, working voltage, operating range, range",
			"Betriebsspannung, Betriebsbereich, Arbeitsbereich, Bereich",
			"tension de service, tension de fonctionnement, plage de fonctionnement, plage",
			"tensión de servicio, tensión de trabajo, rango de operación, rango de funcionamiento, rango",
		},
		not: "start, starting, Anlauf, démarrage, arranque, PWM, signal, control, speed, Drehzahl, temperature, Temperatur, température, temperatura",
	},
	FieldVoltageMax: {
		proof: [...]string{
			"Umax, Vmax, U max, V max",
			"max voltage, voltage to, highest voltage",
			"max Spannung, Spannung bis, Höchstspannung",
			"tension max, tension maximale",
			"tensión max, tensión máxima, voltaje max",
		},
		not: "start, PWM, signal, control, tach, insulation",
	},
	FieldSupply: {
		proof: [...]string{
			"AC/DC, DC/AC",
			"supply type, current type, type of current, voltage type, type of voltage, type of supply",
			"Stromart, Spannungsart",
			"type de courant, nature du courant, type de tension, type d'alimentation",
			"tipo de corriente, tipo de tensión, tipo de alimentación",
		},
		hint: [...]string{"", "supply, power, type, motor type", "Versorgung, Typ, Motorart", "alimentation, type, courant", "alimentación, tipo, corriente"},
	},
	FieldCurrent: {
		proof: [...]string{
			"",
			"current, rated current, nominal current, input current, current consumption, current draw, amperage",
			"Strom, Nennstrom, Stromaufnahme, Stromverbrauch, Betriebsstrom",
			"courant, courant nominal, courant absorbé, intensité, ampérage",
			"corriente, corriente nominal, intensidad, consumo de corriente, amperaje",
		},
		hint: [...]string{"", "amps, consumption, input", "Aufnahme, Verbrauch", "consommation", "consumo, amperios"},
		sign: "I, In, A",
		not: "start, starting, inrush, locked, blocked, Anlauf, Einschalt, blockiert, démarrage, arranque, leakage, Ableit, tach, signal, air, Luft, Volumen, Förder," +
			" type, Art, nature, tipo, output, Ausgang, PWM, sleep",
	},
	FieldPower: {
		proof: [...]string{
			"",
			"power consumption, input power, rated power, nominal power, power draw, electrical power, wattage",
			"Leistungsaufnahme, Nennleistung, elektrische Leistung, Aufnahmeleistung, Leistungsverbrauch, Wirkleistung",
			"puissance absorbée, puissance consommée, puissance nominale, puissance électrique",
			"potencia absorbida, potencia consumida, potencia nominal, potencia eléctrica, consumo de potencia",
		},
		hint: [...]string{"", "power, watts, consumption, input", "Leistung, Watt, Verbrauch, Aufnahme", "puissance, consommation", "potencia, consumo, vatios"},
		sign: "P, W",
		not: "sound, noise, Schall, acoustic, acoustique, acústica, sonore, sonora, air, Luft, Förder, supply, Versorgung, factor, Faktor," +
			" start, SFP, specific",
	},
	FieldLeads: {
		proof: [...]string{
			"",
			"leads, number of leads, lead wires, wires, number of wires, wire count, pins, number of pins, pin count, number of connections",
			"Litzen, Anzahl Litzen, Litzenzahl, Adern, Aderzahl, Adernzahl, Anzahl Adern, Polzahl, Anschlussdrähte, Leitungen, Anzahl Anschlüsse",
			"fils, nombre de fils, broches, nombre de broches, conducteurs, nombre de connexions",
			"hilos, número de hilos, pines, número de pines, número de cables, conductores, número de conexiones",
		},
		hint: [...]string{
			"",
			"poles, contacts, connections, terminals",
			"Pole, Kontakte, Kabel, Anschlüsse, Anschluss, Klemmen",
			"contacts, pôles, câbles, connexions, raccordement, bornes",
			"cables, contactos, polos, conexiones, terminales, bornes",
		},
		not: "length, Länge, longueur, longitud, color, colour, Farbe, couleur, gauge, AWG, time, free, Querschnitt, section, motor," +
			" Belegung, assignment",
	},
	FieldConnector: {
		proof: [...]string{
			"",
			"connector, connector type, plug, connection, termination, terminals, electrical connection",
			"Stecker, Steckertyp, Kontaktierung, Steckverbinder, Steckverbindung, Anschluss, Anschlussart, Anschlüsse, Klemmen",
			"connecteur, type de connecteur, connectique, raccordement, connexion, fiche, prise, bornes",
			"conector, tipo de conector, conexión, enchufe, terminales, bornes",
		},
		not: "length, Länge, longueur, longitud, Spannung, voltage, tension, tensión, number, mating, Strom, PWM",
	},
	FieldTachPerRev: {
		proof: [...]string{
			"FG",
			"tach, tacho, tachometer, tach signal, tach output, tach pulses, speed signal, speed sensor, pulses per revolution, pulses per rev, pulses per turn, pulses, rotation sensor, rpm signal, rpm sensor",
			"Tachosignal, Tachoausgang, Tacho, Drehzahlsignal, Drehzahlausgang, Drehzahlgeber, Impulse pro Umdrehung, Impulse, Impulse U, Tacho Impulse U",
			"signal tachymétrique, sortie tachymétrique, tachymètre, signal de vitesse, impulsions par tour, impulsions, capteur de vitesse",
			"señal de tacómetro, tacómetro, salida de tacómetro, señal de velocidad, pulsos por vuelta, pulsos por revolución, pulsos, sensor de velocidad",
		},
		hint: [...]string{
			"",
			"signal, signal output, output signal, output, sensor, alarm, alarm signal, function, functions, options, features, monitoring",
			"Signal, Signalausgang, Ausgang, Sensor, Alarm, Alarmsignal, Funktion, Funktionen, Optionen, Überwachung",
			"signal, sortie, capteur, alarme, fonction, fonctions, options",
			"señal, salida, sensor, alarma, función, funciones, opciones",
		},
		not: "frequency, Frequenz, voltage, PWM, temperature, Temperatur",
	},
	FieldPWM: {
		proof: [...]string{
			"PWM",
			"PWM input, PWM control, speed control, speed controllable",
			"PWM-Eingang, PWM-Steuerung, Drehzahlregelung, Drehzahlsteuerung, regelbar, steuerbar",
			"commande PWM, entrée PWM, MLI, régulation de vitesse, commande de vitesse, variation de vitesse",
			"entrada PWM, control PWM, control de velocidad, regulación de velocidad",
		},
		hint: [...]string{"", "control, control input", "Steuerung, Regelung, Steuereingang", "commande, régulation", "control, regulación"},
		not:  "frequency, Frequenz, fréquence, frecuencia, min, duty, voltage, Spannung",
	},
	FieldStartVoltage: {
		proof: [...]string{
			"Ustart, Vstart, U start, V start",
			"start voltage, starting voltage, start up voltage, startup voltage",
			"Anlaufspannung, Startspannung",
			"tension de démarrage",
			"tensión de arranque, voltaje de arranque",
		},
	},
	FieldFrequency: {
		proof: [...]string{"", "frequency, mains frequency, line frequency, supply frequency", "Frequenz, Netzfrequenz", "fréquence, fréquence secteur", "frecuencia, frecuencia de red"},
		sign:  "f",
		not:   "PWM, tach, blade, noise, Schall, signal, resonance",
	},
	FieldAirflow: {
		proof: [...]string{
			"",
			"airflow, air flow, air flow rate, air volume, volume flow, volume flow rate, volumetric flow, flow rate, free air delivery, free delivery, air delivery, air capacity, air quantity, air throughput, air output, air performance",
			"Luftstrom, Volumenstrom, Luftvolumenstrom, Luftmenge, Luftvolumen, Luftdurchsatz, Luftleistung, Luftförderung, Luftfördermenge, Luftförderleistung, Förderleistung, Fördermenge, Förderstrom, Fördervolumen, Förderstärke, Durchflussmenge",
			"débit, débit d'air, débit volumique, débit volumétrique, flux d'air, volume d'air",
			"caudal, caudal de aire, caudal volumétrico, flujo de aire, volumen de aire",
		},
		hint: [...]string{
			"",
			"flow, volume, capacity, delivery, performance",
			"Durchsatz, Menge, Leistung, Volumen, Durchfluss",
			"flux, volume, rendement",
			"flujo, volumen, capacidad",
		},
		sign: "Q, qv, V",
		not: "direction, Richtung, sens, dirección, sentido, sensor, noise, Schall, stock, Lager, package, Verpackung, minimum order, Mindest, temperature," +
			" Aufnahme, elektrisch",
	},
	FieldStaticPressure: {
		proof: [...]string{
			"",
			"static pressure, air pressure, pressure rise, shut-off pressure, back pressure, fan pressure, pressure head",
			"statischer Druck, Druckerhöhung, Förderdruck, Gegendruck, Luftdruck, Druckdifferenz, Differenzdruck, Staudruck",
			"pression statique, pression d'air, contre-pression, surpression",
			"presión estática, presión de aire, contrapresión, sobrepresión",
		},
		hint: [...]string{"", "pressure", "Druck", "pression", "presión"},
		sign: "p, ps, pst, psf, dp, Δp",
		not:  "sound, noise, Schall, acoustic, acoustique, acústica, sonore, sonora, level, Pegel, nivel, niveau, cable",
	},
	FieldCurve: {
		proof: [...]string{"", "curve, fan curve, characteristic, characteristic curve, curve points", "Kennlinie, Kurve, Kennlinienpunkte", "courbe, courbe caractéristique", "curva, curva característica"},
		not:   "link, URL, file, Datei, image, Bild",
	},
	FieldSpeed: {
		proof: [...]string{
			"RPM",
			"rotational speed, rotation speed, speed of rotation, fan speed, rated speed, nominal speed, revolutions, rotation",
			"Drehzahl, Nenndrehzahl, Umdrehungen, Umdrehungszahl, Umdrehung",
			"vitesse de rotation, vitesse nominale, régime, tours, rotation",
			"velocidad de giro, velocidad de rotación, velocidad nominal, revoluciones, régimen, giro, vueltas",
		},
		hint: [...]string{"", "speed", "Geschwindigkeit", "vitesse", "velocidad"},
		sign: "n",
		not: "control, controllable, Regelung, regelbar, Steuerung, signal, sensor, output, Ausgang, Geber, air, Luft, aire, d'air, commande, régulation, señal, regulación, monitoring, Überwachung," +
			" pulses, Impulse, impulsions, pulsos, direction, Richtung, sens, levels, Stufen, tolerance, Toleranz",
	},
	FieldNoise: {
		proof: [...]string{
			"LpA, LwA, SPL",
			"noise, noise level, sound level, sound pressure, sound pressure level, sound power, sound power level, acoustic noise, acoustic level, acoustics, loudness",
			"Geräusch, Geräuschpegel, Geräuschentwicklung, Schalldruck, Schalldruckpegel, Schallpegel, Schallleistung, Schalleistung, Schallleistungspegel, Lautstärke, Lärm, Lärmpegel, Lautheit",
			"bruit, niveau de bruit, niveau sonore, niveau acoustique, pression acoustique, niveau de pression acoustique, pression sonore, puissance acoustique, puissance sonore, niveau de puissance acoustique, niveau de puissance sonore, nuisance sonore",
			"ruido, nivel de ruido, nivel sonoro, nivel acústico, presión acústica, presión sonora, nivel de presión sonora, nivel de presión acústica, potencia acústica, potencia sonora, nivel de potencia sonora, nivel de potencia acústica, sonoridad",
		},
		hint: [...]string{"", "sound, level, acoustic", "Schall, Pegel", "son, acoustique, niveau", "sonido, nivel, acústico"},
		sign: "Lp, Lw, L",
		not: "unweighted, unbewertet, linear, lin, linéaire, lineal, dBC, dBZ, distance, Abstand, Entfernung, distancia, kind, Art, spectrum, Spektrum, spectre, espectro, octave, octava, Oktav, third, Terz, tiers, tercio, band, bands, bandes, bandas, filter, class, Klasse, number, type," +
			" sone",
	},
	FieldNoiseKind: {
		proof: [...]string{"", "noise kind, kind of noise, noise type, level type, sound type", "Schallart, Pegelart, Geräuschart", "type de niveau, type de bruit", "tipo de nivel, tipo de ruido"},
	},
	FieldNoiseDistance: {
		proof: [...]string{
			"",
			"noise distance, measuring distance, measurement distance, microphone distance, noise measured at, sound distance",
			"Messabstand, Messentfernung, Messdistanz, Mikrofonabstand, Geräusch Abstand, Schall Abstand, Schall Entfernung",
			"distance de mesure, distance bruit, distance du microphone",
			"distancia de medida, distancia de medición, distancia ruido",
		},
	},
	FieldNoiseBands: {
		proof: [...]string{
			"",
			"octaves, third octaves, spectrum, sound spectrum, noise spectrum, octave bands, octave band levels, octave band spectrum, octave levels, octave spectrum, third octave bands, third octave band levels, third octave levels, third octave spectrum, band levels, sound pressure spectrum, sound power spectrum",
			"Oktaven, Terzen, Spektrum, Schallspektrum, Geräuschspektrum, Frequenzspektrum, Oktavpegel, Oktavband, Oktavbänder, Oktavbandpegel, Oktavspektrum, Oktavschallpegel, Terzpegel, Terzband, Terzbänder, Terzbandpegel, Terzspektrum, Terzschallpegel, Bandpegel",
			"par octave, par octaves, spectre, spectre sonore, spectre acoustique, spectre de bruit, bandes d'octave, spectre par bande d'octave, spectre en bandes d'octave, niveaux par bande d'octave, tiers d'octave, spectre par tiers d'octave, niveaux par tiers d'octave",
			"octavas, espectro, espectro sonoro, espectro acústico, espectro de ruido, bandas de octava, espectro por bandas de octava, niveles por bandas de octava, tercios de octava, espectro por tercios de octava, niveles por tercios de octava",
		},
		not: "distance, Abstand, Entfernung, distancia, filter, number, date, file, image, link, URL, Datei, Bild",
	},
	FieldBlades: {
		proof: [...]string{
			"",
			"blades, number of blades, blade count",
			"Flügel, Flügelzahl, Anzahl Flügel, Flügelblätter, Schaufeln, Schaufelzahl, Anzahl Schaufeln, Blattzahl, Rotorblätter",
			"pales, nombre de pales, aubes, nombre d'aubes",
			"palas, número de palas, aspas, álabes, número de álabes",
		},
		not: "material, Material, matière, color, Farbe, diameter, Durchmesser, frequency",
	},
	FieldBearing: {
		proof: [...]string{
			"",
			"bearing, bearings, bearing type, bearing system",
			"Lager, Lagerung, Lagerart, Lagertyp, Lagersystem, Kugellager",
			"palier, paliers, type de palier, roulement, type de roulement",
			"rodamiento, rodamientos, tipo de rodamiento, cojinete, cojinetes, tipo de cojinete",
		},
		not: "temperature, Temperatur, Bestand, Menge, Ort, Nummer, number, life, Lebensdauer, stock",
	},
	FieldLife: {
		proof: [...]string{
			"L10, MTTF, MTBF",
			"life, life expectancy, lifetime, life time, service life, expected life, operating life",
			"Lebensdauer, Lebenserwartung",
			"durée de vie, espérance de vie",
			"vida, vida útil, esperanza de vida, duración de vida",
		},
		not: "cycle, shelf, Zyklus, status",
	},
	FieldLifeTemp: {
		proof: [...]string{"", "life temperature, temperature of life, life at temperature", "Lebensdauer Temperatur, Lebensdauer bei Temperatur", "température durée de vie", "temperatura de vida útil, temperatura de vida"},
		hint:  [...]string{"", "life, lifetime", "Lebensdauer, Lebenserwartung", "durée de vie", "vida, vida útil"},
	},
	FieldTempMax: {
		proof: [...]string{
			"Tmax, Tamb, T max, T amb",
			"temperature, operating temperature, operating temperature range, ambient temperature, max ambient, temperature range, working temperature, max temperature",
			"Temperatur, Betriebstemperatur, Umgebungstemperatur, Temperaturbereich, Einsatztemperatur, Arbeitstemperatur, Betriebstemperaturbereich",
			"température, température de fonctionnement, température ambiante, température de service, température d'utilisation, plage de température",
			"temperatura, temperatura de trabajo, temperatura ambiente, temperatura de servicio, temperatura de funcionamiento, rango de temperatura",
		},
		hint: [...]string{"", "ambient, operating range", "Betriebsbereich, Umgebung", "plage de fonctionnement", "rango de operación, rango de funcionamiento"},
		sign: "T, ta",
		not: "storage, Lager, Lagerung, Lagertemperatur, stockage, almacenamiento, motor, winding, Wicklung, coil, rise, Erwärmung, min, sensor, control, Regelung," +
			" transport, class, Klasse, life, Lebensdauer, vida, vie",
	},
	FieldPrice: {
		proof: [...]string{
			"",
			"price, unit price, net price, list price, price each, retail price, trade price, cost, RRP, MSRP",
			"Preis, Stückpreis, Einzelpreis, Nettopreis, Bruttopreis, Listenpreis, Verkaufspreis, Einkaufspreis, VK, EK, UVP",
			"prix, prix unitaire, prix net, prix public, prix HT, tarif, tarif public, tarif HT, PU, PU HT, PPHT",
			"precio, precio unitario, precio neto, precio público, precio de venta, PVP, PVR, tarifa, tarifa neta",
		},
		hint: [...]string{"", "net, gross, amount", "netto, brutto, Betrag", "net, brut, montant", "neto, bruto, importe"},
		not: "group, Gruppe, Preiseinheit, Einheit, code, date, Datum, quantity, Menge, weight, Gewicht, poids, peso, airflow, Volumen," +
			" customs, Zoll, Zolltarif, douane, douanier, douanière, arancel, arancelaria, shipping, freight, deposit, Versand, Versandkosten, Fracht, Pfand, frais, port, consigne, portes, envío",
	},
	FieldCurrency: {
		proof: [...]string{"", "currency", "Währung", "devise, monnaie", "moneda, divisa"},
		not:   "price, Preis, prix, precio",
	},
	FieldSupplier: {
		proof: [...]string{
			"",
			"supplier, distributor, vendor, dealer, seller",
			"Lieferant, Händler, Distributor",
			"fournisseur, distributeur, revendeur",
			"proveedor, distribuidor, vendedor",
		},
		not: "number, part, code, Artikel, référence, referencia, código, article, order",
	},
	FieldOrderCode: {
		proof: [...]string{
			"SKU",
			"order code, order number, ordering code, stock code, stock number, supplier part number, supplier code, distributor part number, distributor number",
			"Bestellnummer, Bestellcode, Lieferantennummer, Lieferantenartikelnummer, Händlernummer",
			"référence de commande, numéro de commande, code de commande, référence fournisseur",
			"código de pedido, número de pedido, referencia de pedido, referencia del proveedor",
		},
		hint: [...]string{
			"",
			"article number, article, item number, item, product code, product number, catalog number, catalogue number, reference, code, part number",
			"Artikelnummer, Art Nr, Artikel, Sachnummer, Materialnummer, Katalognummer, Produktnummer, Referenz, Code",
			"numéro d'article, code article, article, référence, code produit, code, code art, réf art, nr art",
			"número de artículo, código de artículo, artículo, referencia, código de producto, código, cód art, ref art, nr art",
		},
		not: "manufacturer, Hersteller, fabricant, fabricante, color, Farbe, customs, tariff, Zoll, country, date, IP, EAN, GTIN",
	},
	FieldStock: {
		proof: [...]string{
			"",
			"stock, in stock, stock quantity, quantity in stock, available stock, quantity available, on hand, quantity on hand, stock on hand",
			"Bestand, Lagerbestand, Lagermenge, auf Lager, Verfügbarkeit, verfügbar, verfügbare Menge",
			"stock, en stock, quantité en stock, disponibilité, disponible, stock disponible",
			"existencias, en stock, stock disponible, disponibilidad, disponible, cantidad en stock",
		},
		hint: [...]string{"", "quantity, qty, available, availability, pieces", "Menge, Lager, Stück, Anzahl", "quantité, pièces", "cantidad, unidades, almacén"},
		not:  "code, number, minimum, Mindest, order, Bestellung, commande, pedido, package, Verpackung, date, location, Ort, temperature, Temperatur, température, temperatura",
	},
	FieldInStock: {
		proof: [...]string{
			"",
			"in stock yes no, availability status, stock status",
			"Lagerstatus, Bestandsstatus, lieferbar",
			"état du stock, disponibilité immédiate",
			"estado de existencias, entrega inmediata",
		},
		hint: [...]string{"", "status", "Status", "statut", "estado"},
		not:  "code, number, date, life, RoHS, PWM",
	},
	FieldDescription: {
		proof: [...]string{
			"",
			"description, product description, item description, short description",
			"Beschreibung, Artikelbezeichnung, Produktbezeichnung, Kurztext, Artikeltext, Produktbeschreibung, Langtext, Kurzbeschreibung",
			"description, désignation, libellé",
			"descripción, denominación",
		},
		hint: [...]string{"", "name, product, product name, title, remarks, notes, comment", "Bezeichnung, Name, Produkt, Produktname, Titel, Bemerkung, Text", "nom, produit, remarque, intitulé", "nombre, producto, observaciones"},
	},
}

// sameWords are groups of one meaning; words of a group stand for its first.
const sameWords = "number, no, nr, num, nummer, numero, nbr; " +
	"max, maximum, maximal, maximale, maximaler, maximo, maxima, maxi, höchst, höchste; " +
	"min, minimum, minimal, minimale, minimo, minima, mini, mindest, niedrigste; " +
	"nominal, nenn, rated, nominale, nominel, assigné, assignée, bemessung; " +
	"static, statisch, statischer, statique, estática, estático; " +
	"acoustic, acoustique, acústica, acústico, akustisch; " +
	"electrical, electric, elektrisch, elektrische, électrique, eléctrica; " +
	"manufacturer, mfr, mfg, Hersteller, Hst, Herst, fabricant, fabricante; " +
	"reference, ref, réf; " +
	"code, código, cód; " +
	"quantity, qty, qté, Stk; " +
	"dimension, dim, Abm; " +
	"temperature, temp; " +
	"voltage, volt; " +
	"description, desc, descr; " +
	"pulse, pulses, Impulse, Imp, impulsions, impulsion, pulsos, pulso; " +
	"position, pos; " +
	"operating, oper, op; " +
	"pressure, press; " +
	"consumption, cons; " +
	"current, curr, cur; " +
	"power, pwr; " +
	"Spannung, Spg"

// fillWords are words that say nothing about what a column holds.
const fillWords = "fan, fans, Lüfter, Ventilator, ventilateur, ventilador, of, the, at, in, per, and, for, to, on, with, by, de, du, des, d, l, la, le, les, del, el, los, las, der, die, das, den, für, bei, mit, zu, im, am, pro, je, a, à, en, al, au, aux, sur, por, para, pour, par, con, y, et, und, un, o, ou, or, oder, " +
	"value, Wert, valeur, valor, data, Daten, Angabe, approx, ca, typical, typisch, typique, típico, free, frei, freiblasend, libre, total, gesamt, unit, Einheit, unité, unidad"

// compoundWords are words that compounds of the tables are made of and that do
// not stand in the tables by themselves.
const compoundWords = "Bestell, Sach, Material, Katalog, Teile, Betrieb, Gehäuse, Mess, Umgebung, Einsatz, Arbeit, Lieferanten, Händler, Liefer, Einbau, Rahmen, Außen, Netz, Schalt, Verkauf, Einkauf, Stück, Einzel, Listen, Befestigung, Bohr, Loch, Blatt, Rotor, Dreh, Zahl, Lebens, Dauer, Geräusch, Entwicklung, Wert, Art, Typ, Maß"
