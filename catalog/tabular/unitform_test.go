package tabular

import "testing"

// TestUnitOf: format codes as spreadsheets write them.
func TestUnitOf(t *testing.T) {
	for _, r := range []struct{ code, want string }{
		{`0.0" CFM"`, "CFM"},
		{`#,##0.0\ "m³/h"`, "m³/h"},
		{`General" V"`, "V"},
		{`GENERAL\ "mm"`, "mm"},
		{`General`, ""},
		{`0" V DC"`, "V DC"},
		{`0.00\"`, `"`},
		{`0°`, "°"},
		{`#,##0.00\ "€"`, "€"},
		{`#,##0.00 €`, "€"},
		{`$#,##0.00`, "$"},
		{`"$"#,##0.00_);("$"#,##0.00)`, "$"},
		{`[$£-809]#,##0.00`, "£"},
		{`[$USD] #,##0.00`, "USD"},
		{`#,##0.00 [$kr.-41D]`, "kr."},
		{`_-* #,##0.00 "€"_-;-* #,##0.00 "€"_-;_-* "-"?? "€"_-;_-@_-`, "€"},
		{`[Red]0.0" Pa";[Blue]-0.0" Pa"`, "Pa"},
		{`0%`, ""},
		{`0.0\ %`, ""},
		{`0\ \%`, "%"},
		{`"ca. "0`, ""},
		{`"KX-"0`, ""},
		{`0.00E+00`, ""},
		{`# ?/?`, ""},
		{`0_)`, ""},
		{`0" -"`, ""},
		{`0" a very long text behind the number"`, ""},
		{`0"`, ""},
		{`0\`, ""},
		{`[$`, ""},
		{`0;0" kg"`, ""},
		{``, ""},
	} {
		if got := unitOf(r.code); got != r.want {
			t.Errorf("unitOf(%q) = %q, want %q", r.code, got, r.want)
		}
	}
}
