package devicefile

import (
	"testing"

	"pgregory.net/rapid"
)

// drawn fills a random share of the template's leaves with values that fit,
// nearly fit, or do not fit.
func drawn(t *rapid.T) string {
	busy := rapid.IntRange(1, 10).Draw(t, "busy")
	odd := rapid.SampledFrom([]int{0, 0, 1, 2, 20}).Draw(t, "odd")
	strange := []string{"unknown", "24", "24 C", "60 mm", "70 %", "yes", "no", "true", "none", "''", "~", "minus, plus", "1e3", "[a]", "{a: b}", "x y", "-3 K", "'12 V'",
		"levels.csv", "A", "125:46;250:42;500:39;1000:37;2000:33;4000:27", "'125: 46; 250: 42 dB'", "{125 Hz: 46 dB, 250: 42, 500: 39, 1k: 37, 2000: 33, 4000: 27}", "{125: , 250: 42}", "{}"}
	return template(func(of table, e entry) string {
		if e.must && of.name != "point" || e.name == "part" && of.name == "fan" {
			return e.example
		}
		if rapid.IntRange(1, 10).Draw(t, e.name) > busy {
			return ""
		}
		if rapid.IntRange(1, 100).Draw(t, "odd "+e.name) <= odd {
			return rapid.SampledFrom(append(strange, e.form.words...)).Draw(t, "value of "+e.name)
		}
		return example(of, e)
	})
}

// What Parse takes is valid by the schema, is the same when read again, and can
// be reported on.
func TestParseAndSchemaAgree(t *testing.T) {
	s := compiled(t)
	taken := 0
	rapid.Check(t, func(rt *rapid.T) {
		data := drawn(rt)
		f, err := Parse("drawn.yaml", []byte(data), tables)
		if err != nil {
			return
		}
		taken++
		v, ok := value(t, data)
		if !ok {
			rt.Fatalf("no YAML:\n%s", data)
		}
		if err := s.Validate(v); err != nil {
			rt.Fatalf("taken, and not valid by the schema: %v\n%s", err, data)
		}
		again, err := Parse("drawn.yaml", []byte(data), tables)
		if err != nil {
			rt.Fatalf("read again: %v", err)
		}
		if d := diff(f.Device, again.Device); d != "" {
			rt.Fatalf("read again:\n%s", d)
		}
		for _, p := range f.Device.Paths {
			if p.Regulated != (p.RegulatedBy > 1) || len(p.Ways) == 1 {
				rt.Fatalf("path %+v", p)
			}
		}
		ReportOf(&f.Device)
	})
	if taken == 0 {
		t.Error("no drawn file was taken: the test says nothing")
	}
	t.Logf("%d files taken", taken)
}
