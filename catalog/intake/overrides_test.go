package intake

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
)

// What the last import of a source was told and this one was not is named.
func TestForgottenOptions(t *testing.T) {
	const text = "Artikel-Nr.;Breite;Schall alt;Schall neu\nA1;60;28,5;27\n"
	p := newPlace(t, text)
	told := func(o *Options) {
		o.Columns = []partscsv.Assignment{{Field: catalog.FieldNoise, Header: "Schall neu"}, {Field: catalog.FieldSpeed}}
		o.Values = []partscsv.Given{given(t, catalog.FieldKind, "axial")}
		o.Format = tabular.Options{Encoding: "utf-8", Decimal: tabular.Comma, HeaderLine: 1, Delimiter: ';'}
	}
	if a := p.ok(told); a.Forgotten != nil {
		t.Errorf("forgotten at the first import: %q", a.Forgotten)
	}
	for _, step := range []struct {
		name   string
		change func(*Options)
		want   []string
	}{
		{"the same", told, nil},
		{"some of it, one otherwise", func(o *Options) {
			told(o)
			o.DryRun, o.Values, o.Format.HeaderLine = true, nil, 0
			o.Columns = []partscsv.Assignment{{Field: catalog.FieldNoise, Header: "Schall alt"}, {Field: catalog.FieldSpeed}}
		}, []string{"--value kind=axial", "--header-line 1"}},
		{"nothing", nil, []string{
			`--column noise_dba="Schall neu"`, "--column speed_rpm=", "--value kind=axial",
			`--delimiter semicolon`, "--encoding utf-8", `--decimal ","`, "--header-line 1",
		}},
		{"nothing again", nil, nil},
	} {
		if diff := cmp.Diff(step.want, p.ok(step.change).Forgotten); diff != "" {
			t.Errorf("%s (-want +got):\n%s", step.name, diff)
		}
	}
}
