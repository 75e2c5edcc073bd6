package devicefile

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// diff compares two devices, numbers to eight digits: a file holds ten. Pieces of geometry are
// compared by what they cost.
func diff(a, b match.Device) string {
	return cmp.Diff(a, b,
		cmp.Exporter(func(reflect.Type) bool { return true }),
		cmp.FilterPath(func(p cmp.Path) bool { return p.Last().Type().Kind() == reflect.Float64 },
			cmp.Comparer(func(x, y any) bool {
				a, b := reflect.ValueOf(x).Float(), reflect.ValueOf(y).Float()
				return a == b || math.Abs(a-b) <= 1e-8*math.Max(math.Abs(a), math.Abs(b)) // -Inf: no sound
			})),
		cmp.Comparer(func(x, y resistance.Path) bool {
			in := resistance.StandardAir()
			p, q := x.Loss(0.01, in), y.Loss(0.01, in)
			return len(x) == len(y) && math.Abs(p-q) <= 1e-6*math.Max(p, q)
		}))
}

// example fills every key of the template that does not contradict another.
func example(of table, e entry) string {
	switch {
	case e.instead != "" || of.name == "fan" && e.name != "part",
		e.name == "mains",      // of AC, the supply is DC
		e.name == "alarm_kind", // of an alarm lead, the device watches a tach
		of.name == "point":     // one point does not tell a curve
		return ""
	}
	return e.example
}

// Every quantity of the file is read in every unit of its dimension: the same
// device comes of it.
func TestEveryQuantityInEveryUnit(t *testing.T) {
	want := parsed(t, "examples", template(example)).Device
	tried := 0
	for _, u := range quantity.Units() {
		var used []string
		data := template(func(of table, e entry) string {
			text := example(of, e)
			if text == "" || e.form.kind != formQuantity && e.form.kind != formSpeed && e.form.kind != formLength {
				return text
			}
			own := quantity.UnitsSpelled(e.form.symbol)[0]
			si, err := quantity.Parse(text, own)
			if own.Dimension != u.Dimension || err != nil {
				return text
			}
			used = append(used, e.name)
			return fmt.Sprintf("%s %s", catalog.Number(u.FromSI(si)), u.Symbol)
		})
		if len(used) == 0 {
			continue
		}
		tried++
		if d := diff(want, parsed(t, u.Symbol, data).Device); d != "" {
			t.Errorf("%q in %s (-example +%s):\n%s", used, u.Symbol, u.Symbol, d)
		}
	}
	if dimensions := 11; tried < 2*dimensions {
		t.Errorf("%d units tried, want all of %d dimensions", tried, dimensions)
	}
}

// Every bound of the template's keys holds at its ends and not beyond, and a
// unit is asked for where one belongs.
func TestEveryBound(t *testing.T) {
	checked := 0
	eachLeaf(deviceTable(), func(of table, e entry) {
		f := e.form
		if f.low == 0 && f.high == 0 || f.kind == formField || e.hidden {
			return
		}
		checked++
		unit := " " + f.symbol
		if f.kind == formShare {
			unit = " %"
		}
		beyond := 1 + 0.01*(f.high-f.low)
		for _, c := range []struct {
			text string
			ok   bool
		}{
			{catalog.Number(f.low) + unit, true}, {catalog.Number(f.high) + unit, true},
			{catalog.Number(f.low-beyond) + unit, false}, {catalog.Number(f.high+beyond) + unit, false},
			{catalog.Number(f.high), f.kind == formCount || f.kind == formNumber},
			{".nan" + unit, false}, {"1e999" + unit, false}, {"0x10" + unit, false},
		} {
			if refused := refuses(t, of, e, c.text); refused == c.ok {
				t.Errorf("%s: %s: %q refused: %v, want %v", of.name, e.name, c.text, refused, !c.ok)
			}
		}
	})
	if checked < 40 {
		t.Errorf("%d leaves with bounds, want those of the file", checked)
	}
}

// refuses says whether a text is refused as the value of a key of the template.
func refuses(t *testing.T, of table, e entry, text string) bool {
	t.Helper()
	found := problemsOf(t, template(func(in table, k entry) string {
		if in.name == of.name && k.name == e.name {
			return text
		}
		return ""
	}))
	return slices.ContainsFunc(found, func(p Problem) bool { return strings.HasPrefix(p.Reason, e.name+" "+quoted(strings.TrimSpace(text))) })
}

// eachLeaf visits every leaf of the template below a table, each table once.
func eachLeaf(t table, visit func(table, entry)) {
	var seen []string
	var walk func(table)
	walk = func(t table) {
		if slices.Contains(seen, t.name) || t.oneOf {
			return
		}
		seen = append(seen, t.name)
		for _, e := range t.entries {
			if e.body == nil {
				visit(t, e)
			} else {
				walk(e.body())
			}
		}
	}
	walk(t)
}
