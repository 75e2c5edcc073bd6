package partscsv

import (
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/tabular"
)

// The words for prices of the trade, with and without points.
func TestPriceHeaders(t *testing.T) {
	for _, header := range []string{
		"P.V.P.", "PVP", "P.V.P. (€)", "Tarifa", "Precio", "Precio neto", "Neto", "Importe",
		"Prix public", "Tarif public", "P.U. HT", "Montant",
		"UVP", "U.V.P.", "Listenpreis", "Netto", "Brutto",
		"RRP", "Retail price", "Net", "Ours", // whatever stands above amounts with a currency
	} {
		p, rows := planOf(t, tabular.Comma, "Modelo|Size mm|"+header+"\nA1|60|4,20 €\nA2|80|1.016,50 €\nA3|80|-")
		c := p.Columns()[2]
		fan, _, err := p.Reader().Read(rows[1])
		if err != nil || c.FieldName() != "price" || fan.Price.Or(0) != 1016.5 || fan.Currency != "EUR" {
			t.Errorf("%q is %q with %v %s (%v), want price with 1016.5 EUR", header, c.FieldName(), fan.Price, fan.Currency, err)
		}
	}
}

func TestNoPrices(t *testing.T) {
	for _, text := range []string{
		"Poids net|0,12", "Netto|0,12", "Tarif douanier|8414", "Importe|12", "Nettogewicht|0,1 €", "Portes|4,20 €", "Frais de port|4,20 €", "Versandkosten|4,90 €",
	} {
		header, cell, _ := strings.Cut(text, "|")
		p, _ := planOf(t, tabular.Comma, "Modelo|Size mm|"+header+"\nA1|60|"+cell)
		if c := p.Columns()[2]; c.FieldName() == "price" {
			t.Errorf("%q with the cell %q is a price: %s", header, cell, c.Why)
		}
	}
}

// Blanks part the pairs of band levels, or the groups of a number's digits.
func TestPairsPartedByBlanks(t *testing.T) {
	const want = "63:28;125:33;250:30;500:27;1000:23;2000:19;4000:14;8000:9"
	for _, cell := range []string{
		"63:28 125:33 250:30 500:27 1000:23 2000:19 4000:14 8000:9",
		"63: 28 125: 33 250: 30 500: 27 1000: 23 2000: 19 4000: 14 8000: 9",
		"63:28; 125:33; 250:30; 500:27; 1 000:23; 2 000:19; 4 000:14; 8 000:9",
		"63 28 125 33 250 30 500 27 1000 23 2000 19 4000 14 8000 9",
		"63 Hz: 28 125 Hz: 33 250 Hz: 30 500 Hz: 27 1 kHz: 23 2 kHz: 19 4 kHz: 14 8 kHz: 9",
	} {
		p, rows := planOf(t, tabular.Point, "Modelo|Size mm|Octavas\nA1|60|"+cell)
		fan, remarks, err := p.Reader().Read(rows[0])
		if err != nil {
			t.Fatal(err)
		}
		if got := catalog.FormatBands(fan.NoiseBands); got != want {
			t.Errorf("bands of %q = %s (%v), want %s", cell, got, remarks, want)
		}
	}
}

// A column of levels in bands that its header does not call so is told of, not
// read.
func TestHintAtBands(t *testing.T) {
	const cells = "63:28 125:33 250:30 500:27 1000:23 2000:19 4000:14 8000:9"
	p, _ := planOf(t, tabular.Point, "Modelo|Size mm|Dämpfung neu\nA1|60|"+cells)
	c := p.Columns()[2]
	if want := `--column noise_bands="Dämpfung neu" reads it`; c.Taken() || !strings.HasPrefix(c.Why, "looks like noise_bands") || !strings.Contains(c.Why, want) {
		t.Errorf("column is %q, %q, want it kept and told of with %q", c.FieldName(), c.Why, want)
	}
	p, _ = planOf(t, tabular.Point, "Modelo|Size mm|Octavas|Otra\nA1|60|"+cells+"|"+cells)
	if c := p.Columns()[3]; c.Why != `looks like noise_bands, which is read from "Octavas"` {
		t.Errorf("second column of bands: %q", c.Why)
	}
}

// The same fault is told of each sample, marked as one.
func TestSamplesMarkFaults(t *testing.T) {
	p, _ := planOf(t, tabular.Point, "Modelo|Size mm|Octavas\nA1|60|loud\nA2|60|louder", Assignment{catalog.FieldNoiseBands, "Octavas"})
	samples := p.Columns()[2].Samples
	if len(samples) != 2 || !samples[0].Fault || !samples[1].Fault {
		t.Errorf("samples = %+v, want two faults", samples)
	}
}

// "Yes" in a column of pieces says that there are some, not how many.
func TestStockInWords(t *testing.T) {
	tests := []struct{ header, cell, want string }{
		{"Stock", "si", "in_stock=yes"}, {"Stock", "sí", "in_stock=yes"}, {"Disponible", "sí", "in_stock=yes"},
		{"En stock", "oui", "in_stock=yes"}, {"En stock", "non", "stock=0"}, {"En stock", "épuisé", "stock=0"},
		{"Bestand", "ja", "in_stock=yes"}, {"Verfügbarkeit", "ab Lager", "in_stock=yes"}, {"Bestand", "ausverkauft", "stock=0"},
		{"In stock", "yes", "in_stock=yes"}, {"In stock", "out of stock", "stock=0"}, {"Existencias", "agotado", "stock=0"},
		{"Existencias", "140", "stock=140"}, {"Existencias", "0", "stock=0"}, {"En stock", "bientôt", ""},
		{"Lieferbar", "ja", "in_stock=yes"}, {"Lieferbar", "nein", "in_stock=no"}, {"in_stock", "yes", "in_stock=yes"},
	}
	for _, test := range tests {
		p, rows := planOf(t, tabular.Point, "Modelo|Size mm|"+test.header+"\nA1|60|"+test.cell+"\nA2|60|12\nA3|60|no")
		fan, _, err := p.Reader().Read(rows[0])
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, part := range strings.Fields(said(fan)) {
			if strings.Contains(part, "stock=") {
				got = part
			}
		}
		if got != test.want {
			t.Errorf("%q under %q = %q, want %q", test.cell, test.header, got, test.want)
		}
	}
}

// What a row contradicts itself in is told with all the columns it may come from,
// and its numbers.
func TestProblemNamesItsColumns(t *testing.T) {
	p, rows := planOf(t, tabular.Comma, "Modelo|Tensión V|Caudal (m³/h)|Presión est. (mmca)|Consumo\nA1|12|55|32|0,16 W\nA2|12|55|32|0,16 W")
	_, remarks, err := p.Reader().Read(rows[0])
	if err != nil || len(remarks) == 0 {
		t.Fatalf("%v, %v", remarks, err)
	}
	m := remarks[len(remarks)-1]
	const warning = `less power than the air that is moved takes (against "Caudal (m³/h)" and "Presión est. (mmca)"); check the units of airflow, pressure and power`
	if m.Column != 4 || m.Warning != warning || m.Example != "moves 1.2 W of air on 0.16 W of power" {
		t.Errorf("remark = %+v", m)
	}
}
