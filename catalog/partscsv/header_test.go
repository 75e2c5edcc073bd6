package partscsv

import (
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/tabular"
)

// One header with two cells each, beside a part number and a frame: what the
// column is taken for, and in which unit. Headers are words of the trade,
// common practice.
func TestHeaders(t *testing.T) {
	rows := []struct{ header, cells, want string }{
		// airflow
		{"Airflow [m³/h]", "45|60", "airflow_m3h m³/h"},
		{"Air flow, CFM", "45|60", "airflow_m3h CFM"},
		{"Max. Air Volume (m3/min)", "0.75|1", "airflow_m3h m³/min"},
		{"AirFlow CFM", "45|60", "airflow_m3h CFM"},
		{"air_flow_l_s", "45 l/s|60 l/s", "airflow_m3h l/s"},
		{"Volumetric flow rate / l/s", "12|16", "airflow_m3h l/s"},
		{"Free air delivery", "45 m³/h|60 m³/h", "airflow_m3h m³/h"},
		{"Luftstrom m3/h", "45|60", "airflow_m3h m³/h"},
		{"Volumenstrom max. [m³/h]", "45|60", "airflow_m3h m³/h"},
		{"LUFTFOERDERMENGE (m³/h)", "45|60", "airflow_m3h m³/h"},
		{"Förderleistung (m³/h)", "45|60", "airflow_m3h m³/h"},
		{"Luftdurchsatz m³/Std.", "45|60", "airflow_m3h m³/h"},
		{"Leistung m³/h", "45|60", "airflow_m3h m³/h"},
		{"Débit (m³/h)", "45|60", "airflow_m3h m³/h"},
		{"Debit d'air max en m3/h", "45|60", "airflow_m3h m³/h"},
		{"Caudal de aire [m³/h]", "45|60", "airflow_m3h m³/h"},
		{"Flujo de aire (CFM)", "45|60", "airflow_m3h CFM"},
		{"Qmax [m³/h]", "45|60", "airflow_m3h m³/h"},
		{"Q (l/s)", "12|16", "airflow_m3h l/s"},
		{"m³/h", "45|60", "airflow_m3h m³/h"},
		{"CFM", "45|60", "airflow_m3h CFM"},
		{"Fördermenge", "45 m³/h|60 m³/h", "airflow_m3h m³/h"},
		{"Mystery", "45 m³/h|60 m³/h", "airflow_m3h m³/h"},
		{"Air flow direction", "blowing|sucking", ""},
		{"Air flow sensor", "yes|no", ""},
		{"Luftrichtung", "blasend|saugend", ""},
		// pressure
		{"Static pressure (Pa)", "35|60", "static_pressure_pa Pa"},
		{"Pressure [mmH2O]", "3.5|6", "static_pressure_pa mmH₂O"},
		{"Max Static Pressure in. H2O", "0.14|0.2", "static_pressure_pa inH₂O"},
		{"statischer Druck [Pa]", "35|60", "static_pressure_pa Pa"},
		{"Druck", "35 Pa|60 Pa", "static_pressure_pa Pa"},
		{"Pression statique (Pa)", "35|60", "static_pressure_pa Pa"},
		{"Presión estática mm.c.a.", "3.5|6", "static_pressure_pa mmH₂O"},
		{"Pmax (Pa)", "35|60", "static_pressure_pa Pa"},
		{"Δp [Pa]", "35|60", "static_pressure_pa Pa"},
		// level
		{"Noise (dBA)", "28|34", "noise_dba dB(A)"},
		{"Sound pressure level [dB(A)]", "28|34", "noise_dba,noise_kind dB(A)"},
		{"Pressure dB(A)", "28|34", "noise_dba,noise_kind dB(A)"},
		{"Geräusch", "28 dB(A)|34 dB(A)", "noise_dba dB(A)"},
		{"Schalldruckpegel dB (A)", "28|34", "noise_dba,noise_kind dB(A)"},
		{"Schall-Leistungspegel LwA [dB]", "28|34", "noise_dba,noise_kind dB(A)"},
		{"Geraeuschpegel (dB)", "28|34", "noise_dba dB(A)"},
		{"Niveau sonore (dB(A))", "28|34", "noise_dba dB(A)"},
		{"Bruit dBA à 1 m", "28|34", "noise_dba,noise_distance_m dB(A)"},
		{"Nivel de ruido dB(A)", "28|34", "noise_dba dB(A)"},
		{"LpA [dB]", "28|34", "noise_dba,noise_kind dB(A)"},
		{"Sound power (B)", "4.1|4.8", "noise_dba,noise_kind B"},
		{"dBA", "28|34", "noise_dba dB(A)"},
		{"Noise class", "A|B", ""},
		// speed
		{"Speed (RPM)", "2800|3400", "speed_rpm rpm"},
		{"Speed", "2800|3400", "speed_rpm rpm"},
		{"Drehzahl 1/min", "2800|3400", "speed_rpm rpm"},
		{"Nenndrehzahl [min⁻¹]", "2800|3400", "speed_rpm rpm"},
		{"Lüfterdrehzahl U/min", "2800|3400", "speed_rpm rpm"},
		{"Vitesse (tr/min)", "2800|3400", "speed_rpm rpm"},
		{"Velocidad de giro r.p.m.", "2800|3400", "speed_rpm rpm"},
		{"n [min-1]", "2800|3400", "speed_rpm rpm"},
		{"RPM", "2800|3400", "speed_rpm rpm"},
		{"Speed control", "yes|no", "pwm "},
		{"Air speed (m/s)", "3|4", ""},
		// voltage
		{"Rated voltage (V)", "12|24", "voltage_v V"},
		{"V (Nenn)", "12|24", "voltage_v V"},
		{"Nennspannung", "12|24", "voltage_v V"},
		{"Tension d'alimentation VDC", "12|24", "voltage_v,supply V"},
		{"Tensión nominal (Vcc)", "12|24", "voltage_v,supply V"},
		{"Voltaje", "12 V|24 V", "voltage_v V"},
		{"U [V]", "12|24", "voltage_v V"},
		{"VDC", "12|24", "voltage_v,supply V"},
		{"Operating voltage", "12 VDC|24 VDC", "voltage_v,supply V"},
		{"Operating voltage", "7-13.8 V|14-27.6 V", "voltage_min_v,voltage_max_v V"},
		{"Voltage range (V)", "7-13.8|14-27.6", "voltage_min_v,voltage_max_v V"},
		{"Betriebsspannungsbereich [V]", "7 bis 13.8|14 bis 27.6", "voltage_min_v,voltage_max_v V"},
		{"Plage de tension (V)", "7 à 13.8|14 à 27.6", "voltage_min_v,voltage_max_v V"},
		{"Rango de tensión V", "7 a 13.8|14 a 27.6", "voltage_min_v,voltage_max_v V"},
		{"Umin [V]", "7|14", "voltage_min_v V"},
		{"max. Spannung (V)", "13.8|27.6", "voltage_max_v V"},
		{"Starting voltage (V)", "5|9", "start_voltage_v V"},
		{"Anlaufspannung [V]", "5|9", "start_voltage_v V"},
		{"PWM signal voltage (V)", "5|5", ""},
		// current and power
		{"Current (mA)", "120|200", "current_a mA"},
		{"Stromaufnahme [A]", "0.12|0.2", "current_a A"},
		{"Courant nominal (A)", "0.12|0.2", "current_a A"},
		{"Intensidad A", "0.12|0.2", "current_a A"},
		{"I [mA]", "120|200", "current_a mA"},
		{"Start current (A)", "0.5|0.9", ""},
		{"Power W", "1.4|2.4", "power_w W"},
		{"Leistung (W)", "1.4|2.4", "power_w W"},
		{"Leistungsaufnahme", "1.4 W|2.4 W", "power_w W"},
		{"Puissance absorbée (W)", "1.4|2.4", "power_w W"},
		{"Potencia W", "1.4|2.4", "power_w W"},
		{"Schallleistung [dB]", "40|44", "noise_dba,noise_kind dB(A)"},
		// lengths other than the frame
		{"Depth (mm)", "25|38", "depth_mm mm"},
		{"Thickness", "25 mm|38 mm", "depth_mm mm"},
		{"Tiefe [mm]", "25|38", "depth_mm mm"},
		{"Épaisseur (mm)", "25|38", "depth_mm mm"},
		{"Profundidad mm", "25|38", "depth_mm mm"},
		{"Hole spacing (mm)", "50|71.5", "hole_pitch_mm mm"},
		{"Lochabstand mm", "50|71.5", "hole_pitch_mm mm"},
		{"Entraxe de fixation (mm)", "50|71.5", "hole_pitch_mm mm"},
		{"Distancia entre agujeros mm", "50|71.5", "hole_pitch_mm mm"},
		{"Cable length (mm)", "300|500", ""},
		{"Kabellänge mm", "300|500", ""},
		{"Noise measured at [m]", "1|1", "noise_distance_m m"},
		{"Messabstand m", "1|1", "noise_distance_m m"},
		// the rest
		{"Manufacturer", "Nordwehe|Nordwehe", "maker "},
		{"Hersteller", "Nordwehe|Nordwehe", "maker "},
		{"Marque", "Nordwehe|Nordwehe", "maker "},
		{"Fabricante", "Nordwehe|Nordwehe", "maker "},
		{"Connector", "bare leads|PH style", "connector "},
		{"Stecker", "ohne|PH", "connector "},
		{"Connecteur", "fils|PH", "connector "},
		{"Conector", "hilos|PH", "connector "},
		{"Leads", "2|3", "leads "},
		{"Number of wires", "2|3", "leads "},
		{"Litzen", "2|3", "leads "},
		{"Nombre de fils", "2|3", "leads "},
		{"Hilos", "2|3", "leads "},
		{"Lead length", "300|500", ""},
		{"Bearing type", "ball|sleeve", "bearing "},
		{"Lager", "Kugel|Gleit", "bearing "},
		{"Lager", "120|85", "stock "},
		{"Palier", "billes|lisse", "bearing "},
		{"Rodamiento", "bolas|casquillo", "bearing "},
		{"Life expectancy (h)", "70000|50000", "life_h h"},
		{"Lebensdauer [h]", "70000|50000", "life_h h"},
		{"L10 (h)", "70000|50000", "life_h h"},
		{"Durée de vie h", "70000|50000", "life_h h"},
		{"Vida útil (horas)", "70000|50000", "life_h h"},
		{"Operating temperature (°C)", "70|60", "temp_max_c °C"},
		{"Umgebungstemperatur °C", "-10…+70|-20…+60", "temp_max_c °C"},
		{"Température de fonctionnement (°C)", "70|60", "temp_max_c °C"},
		{"Temperatura de trabajo °C", "70|60", "temp_max_c °C"},
		{"Storage temperature (°C)", "80|80", ""},
		{"Lagertemperatur °C", "80|80", ""},
		{"Unit price [EUR]", "12.50|9.90", "price,currency "},
		{"Preis €", "12.50|9.90", "price,currency "},
		{"Prix unitaire HT (€)", "12.50|9.90", "price,currency "},
		{"Precio", "12.50 €|9.90 €", "price,currency "},
		{"Order number", "100-1|100-2", "order_code "},
		{"Bestell-Nr.", "100-1|100-2", "order_code "},
		{"N° de commande", "100-1|100-2", "order_code "},
		{"Número de pedido", "100-1|100-2", "order_code "},
		{"Stock", "120|85", "stock "},
		{"Bestand", "120|85", "stock "},
		{"Quantité en stock", "120|85", "stock "},
		{"Existencias", "120|85", "stock "},
		{"Blades", "7|5", "blades "},
		{"Flügelzahl", "7|5", "blades "},
		{"Nombre de pales", "7|5", "blades "},
		{"Aspas", "7|5", "blades "},
		{"Tach", "yes|no", "tach_per_rev "},
		{"Tacho Imp./U", "2|2", "tach_per_rev "},
		{"Impulsions par tour", "2|2", "tach_per_rev "},
		{"Signal", "FG|RD", "tach_per_rev "},
		{"PWM", "yes|no", "pwm "},
		{"Drehzahlregelung", "ja|nein", "pwm "},
		{"Kind", "axial|radial", "kind "},
		{"Bauart", "axial|radial", "kind "},
		{"Fan type", "axial|blower", "kind "},
		{"Tipo", "axial|centrífugo", "kind "},
		{"Type", "DC|AC", "supply "},
		{"Stromart", "DC|AC", "supply "},
		{"Frequency (Hz)", "50|60", "frequency_hz,supply Hz"},
		{"Description", "quiet fan|loud fan", "description "},
		{"Bezeichnung", "leise|laut", "description "},
		{"Désignation", "silencieux|bruyant", "description "},
		{"Fan curve", "0:42;10:0|0:50;12:0", "curve "},
		{"Speed", "low|high", ""},
		{"Pressure", "low|high", ""},
		{"Output", "open|shut", ""},
		{"Weight (g)", "68|120", ""},
		{"IP rating", "IP20|IP54", ""},
		{"Warranty", "12|24", ""},
	}
	for _, r := range rows {
		cells := strings.Split(r.cells, "|")
		text := "Part number|Frame [mm]|" + r.header + "\nA1|60|" + cells[0] + "\nA2|80|" + cells[1]
		p, _ := planOf(t, tabular.Point, text)
		c := p.Columns()[2]
		if got := fieldsOf(&c); got != r.want && (r.want != "" || got != " ") {
			t.Errorf("column %q with cells %q = %q, want %q (%s)", r.header, cells, got, r.want, c.Why)
		}
	}
}

// fieldsOf writes the fields and the unit of a column.
func fieldsOf(c *Column) string {
	var names []string
	for _, id := range c.Fields {
		names = append(names, catalog.Fields[id].Name)
	}
	return strings.Join(names, ",") + " " + c.Unit
}

// Whole tables: what a column is depends on what else is there (design.md 4).
func TestColumnsSettleEachOther(t *testing.T) {
	rows := []struct{ name, table, want string }{
		{"type is the part, article number the order code",
			"Typ|Artikel-Nr.|Größe\nAX60|1001|60\nAX80|1002|80",
			"part|order_code|width_mm,height_mm"},
		{"no other part: the article number is the part",
			"Artikel-Nr.|Größe\n1001|60\n1002|80",
			"part|width_mm,height_mm"},
		{"no other part: the reference is the part",
			"Référence|Taille\nR-1001|60\nR-1002|80",
			"part|width_mm,height_mm"},
		{"no other part: the order number is the part",
			"Order no.|Size\n1001|60\n1002|80",
			"part|width_mm,height_mm"},
		{"two of them: article before reference",
			"Referencia|Artículo|Tamaño\nX1|1001|60\nX2|1002|80",
			"order_code|part|width_mm,height_mm"},
		{"type of kind words is the kind",
			"Part no.|Type|Size\nA1|axial|60\nA2|blower|80",
			"part|kind|width_mm,height_mm"},
		{"type of supplies is the supply",
			"Part no.|Type|Size\nA1|AC|60\nA2|DC|80",
			"part|supply|width_mm,height_mm"},
		{"type of different names beside a part is neither",
			"Part no.|Type|Size\nA1|KX|60\nA2|KZ|80",
			"part||width_mm,height_mm"},
		{"manufacturer part number before part number",
			"Part number|Manufacturer part number|Manufacturer|Frame\n1-1|A1|Kestwind|60\n1-2|A2|Kestwind|80",
			"order_code|part|maker|width_mm,height_mm"},
		{"product of letters",
			"Model|L x B x H (mm)\nA1|60x60x25\nA2|80x80x25",
			"part|width_mm,height_mm,depth_mm"},
		{"letters in company are sides",
			"Model|B|H|T|Spannung\nA1|60|60|25|12 V\nA2|80|80|25|12 V",
			"part|width_mm|height_mm|depth_mm|voltage_v"},
		{"a letter alone is none",
			"Model|T|Voltage\nA1|60|12 V\nA2|80|12 V",
			"part||voltage_v"},
		{"length, width, height: the height is the depth",
			"Model|Length (mm)|Width (mm)|Height (mm)\nA1|60|60|25\nA2|80|80|25",
			"part|height_mm|width_mm|depth_mm"},
		{"size of products",
			"Model|Size\nA1|60x60x25\nA2|80x80x25",
			"part|width_mm,height_mm,depth_mm"},
		{"diameter",
			"Model|Diameter (mm)|Depth\nA1|172|51\nA2|254|89",
			"part|width_mm,height_mm|depth_mm"},
		{"pressure and sound pressure",
			"Model|Druck|Schalldruck\nA1|35 Pa|28 dB\nA2|40 Pa|30 dB",
			"part|static_pressure_pa|noise_dba,noise_kind"},
		{"power, sound power and air power",
			"Model|Leistung|Schallleistung|Luftleistung\nA1|1.4 W|40 dB|45 m³/h\nA2|2.4 W|44 dB|60 m³/h",
			"part|power_w|noise_dba,noise_kind|airflow_m3h"},
		{"two levels: the sound pressure is read",
			"Model|Sound power dB(A)|Sound pressure dB(A)|Voltage\nA1|40|29|12 V\nA2|44|33|12 V",
			"part||noise_dba,noise_kind|voltage_v"},
		{"two units: the tool's own first, the other checks",
			"Model|Airflow CFM|Airflow m³/h\nA1|26.5|45\nA2|35.3|60",
			"part|airflow_m3h*|airflow_m3h"},
		{"own names win over words",
			"part|airflow_m3h|Airflow [m³/h]\nA1|45|46\nA2|60|61",
			"part|airflow_m3h|"},
		{"life and its temperature",
			"Model|Voltage|Lebensdauer [h]|Lebensdauer bei °C\nA1|12 V|70000|40\nA2|12 V|50000|40",
			"part|voltage_v|life_h|life_temp_c"},
		{"of two mains frequencies the first is read",
			"Model|Voltage|Airflow 60 Hz [m³/h]|Airflow 50 Hz [m³/h]\nA1|230 V~|170|150\nA2|230 V~|180|155",
			"part|voltage_v,supply||airflow_m3h,supply,frequency_hz"},
		{"mass is no size",
			"Model|Voltage|Masse (g)\nA1|12 V|70\nA2|12 V|90",
			"part|voltage_v|"},
		{"bearing and stock share a word",
			"Modell|Spannung|Lager|Lagerbestand\nA1|12 V|Kugel|120\nA2|12 V|Gleit|85",
			"part|voltage_v|bearing|stock"},
	}
	for _, r := range rows {
		p, _ := planOf(t, tabular.Point, r.table)
		var got []string
		for _, c := range p.Columns() {
			names := strings.TrimSpace(strings.TrimSuffix(fieldsOf(&c), c.Unit))
			if c.Check {
				names += "*"
			}
			got = append(got, names)
		}
		if s := strings.Join(got, "|"); s != r.want {
			t.Errorf("%s: columns = %s, want %s", r.name, s, r.want)
		}
	}
}
