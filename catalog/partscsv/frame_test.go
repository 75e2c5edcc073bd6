package partscsv

import (
	"slices"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/tabular"
)

// What stands beside a column that states the size as a whole.
func TestSideBesideSize(t *testing.T) {
	rows := []struct {
		name, table string
		want        []string // of the rows
		header      string
		note        string // of that column
	}{
		{"a width that is the thickness", "Model|Size|Width|Voltage\nA1|60 x 60 mm|25 mm|12 V\nA2|80 x 80 mm|15 mm|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=25 voltage_v=12", "part=A2 width_mm=80 height_mm=80 depth_mm=15 voltage_v=24"},
			"Width", "taken as the depth"},
		{"words before sizes in two units", "Item|Size / Dimension|Width|Voltage\nA1|Square - 2.36\" (60mm) x 2.36\" (60mm)|0.984\" (25.00mm)|12 V\nA2|Round - 6.77\" Dia (172mm)|2.00\" (50.80mm)|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=25 voltage_v=12", "part=A2 width_mm=172 height_mm=172 depth_mm=50.8 voltage_v=24"},
			"Width", "taken as the depth"},
		{"one number for the size", "Artikel|Baugröße|Breite|Spannung\nA1|60|25|12 V\nA2|80|15|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=25 voltage_v=12", "part=A2 width_mm=80 height_mm=80 depth_mm=15 voltage_v=24"},
			"Breite", "taken as the depth"},
		{"a height that is the thickness", "Artikel|Größe|Höhe|Spannung\nA1|60 x 60|25|12 V\nA2|80 x 80|15|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=25 voltage_v=12", "part=A2 width_mm=80 height_mm=80 depth_mm=15 voltage_v=24"},
			"Höhe", "taken as the depth"},
		{"a diameter and its width", "Modèle|Diamètre (mm)|Largeur (mm)|Tension\nA1|172|51|230 V\nA2|150|38|230 V",
			[]string{"part=A1 width_mm=172 height_mm=172 depth_mm=51 voltage_v=230", "part=A2 width_mm=150 height_mm=150 depth_mm=38 voltage_v=230"},
			"Largeur (mm)", "taken as the depth"},
		{"the depth is known", "Model|Size|Width|Depth|Voltage\nA1|60 x 60 mm|25 mm|26 mm|12 V\nA2|80 x 80 mm|15 mm|16 mm|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=26 voltage_v=12", "part=A2 width_mm=80 height_mm=80 depth_mm=16 voltage_v=24"},
			"Width", "not read"},
		{"the sizes give the depth", "Model|Size|Width|Voltage\nA1|60 x 60 x 25 mm|25 mm|12 V\nA2|80 x 80 x 15 mm|15 mm|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=25 voltage_v=12", "part=A2 width_mm=80 height_mm=80 depth_mm=15 voltage_v=24"},
			"Width", "not read"},
		{"more than the frame", "Model|Size|Width|Voltage\nA1|60 x 60 mm|90 mm|12 V\nA2|80 x 80 mm|110 mm|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 voltage_v=12", "part=A2 width_mm=80 height_mm=80 voltage_v=24"},
			"Width", "not read"},
		{"the width of the frame", "Model|Size|Width|Voltage\nA1|60 x 60 x 25 mm|60 mm|12 V\nA2|80 x 80 x 25 mm|80 mm|24 V\nA3|80 x 80 x 25 mm|25 mm|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=25 voltage_v=12", "part=A2 width_mm=80 height_mm=80 depth_mm=25 voltage_v=24",
				`"Width": contradicts itself: 80 mm and 25 mm`}, "Width", ""},
		{"three sides", "Model|Length|Width|Height|Voltage\nA1|60|60|25|12 V\nA2|80|80|15|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 depth_mm=25 voltage_v=12", "part=A2 width_mm=80 height_mm=80 depth_mm=15 voltage_v=24"},
			"Width", ""},
		{"two sides", "Model|Width|Height|Voltage\nA1|60|60|12 V\nA2|92|88|24 V",
			[]string{"part=A1 width_mm=60 height_mm=60 voltage_v=12", "part=A2 width_mm=92 height_mm=88 voltage_v=24"},
			"Width", ""},
	}
	for _, r := range rows {
		p, cells := planOf(t, tabular.Point, r.table)
		var got []string
		for _, row := range cells {
			fan, _, err := p.Reader().Read(row)
			if err != nil {
				got = append(got, err.Error())
			} else {
				got = append(got, said(fan))
			}
		}
		if !slices.Equal(got, r.want) {
			t.Errorf("%s: rows read\n%s\nwant\n%s", r.name, strings.Join(got, "\n"), strings.Join(r.want, "\n"))
		}
		for _, c := range p.Columns() {
			if notes := strings.Join(c.Notes, "; "); c.Header == r.header && !strings.Contains(notes, r.note) {
				t.Errorf("%s: %q has the notes %q, want %q", r.name, c.Header, notes, r.note)
			}
		}
	}
}

// --column settles the width against what the sizes say.
func TestForcedWidthStands(t *testing.T) {
	a := Assignment{catalog.FieldWidth, "Width"}
	p, rows := planOf(t, tabular.Point, "Model|Size|Width|Voltage\nA1|60 x 60 mm|25 mm|12 V", a)
	fan, _, err := p.Reader().Read(rows[0])
	if want := "part=A1 width_mm=25 height_mm=25 voltage_v=12"; err != nil || said(fan) != want {
		t.Errorf("row = %v, %v, want %s", fan, err, want)
	}
}
