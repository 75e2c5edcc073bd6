package cli

import (
	"context"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// TestSearchOptions reads command lines into options.
func TestSearchOptions(t *testing.T) {
	noise := &catalog.Fields[catalog.FieldNoise]
	rows := []struct {
		line string
		want searchOptions
	}{
		{"", searchOptions{limit: tableLimit}},
		{"--format json", searchOptions{}},
		{"--format csv", searchOptions{}},
		{"--format json --limit 5", searchOptions{limit: 5}},
		{"--limit 0", searchOptions{}},
		{"silent 60", searchOptions{limit: tableLimit, text: "silent 60"}},
		{"--sort -noise_dba", searchOptions{limit: tableLimit, sort: noise, descending: true}},
		{"--sort=noise_dba", searchOptions{limit: tableLimit, sort: noise}},
		{"--frame 60", searchOptions{limit: tableLimit, filter: catalog.Filter{Width: 0.06, Height: 0.06}}},
		{"--frame 60x38", searchOptions{limit: tableLimit, filter: catalog.Filter{Width: 0.06, Height: 0.038}}},
		{"--frame 6cm×1in", searchOptions{limit: tableLimit, filter: catalog.Filter{Width: 0.06, Height: 0.0254}}},
		{"--depth-max 2.5cm --voltage 12V --leads 3", searchOptions{limit: tableLimit, filter: catalog.Filter{DepthMax: 0.025, Voltage: 12, Leads: 3}}},
		{"--supply ac --kind Axial", searchOptions{limit: tableLimit, filter: catalog.Filter{Supply: catalog.AC, Kind: catalog.Axial}}},
		{"--noise-max 3B --airflow-min 36 --pressure-min 1mmH2O", searchOptions{limit: tableLimit, filter: catalog.Filter{
			NoiseMax: 30, AirflowMin: 0.01, PressureMin: quantity.MillimetreWater}}},
		{"--price-max 20 --in-stock --maker X --connector Y", searchOptions{limit: tableLimit, filter: catalog.Filter{
			PriceMax: 20, InStock: true, Maker: "X", Connector: "Y"}}},
	}
	for _, r := range rows {
		got, err := searchOptionsOf(strings.Fields(r.line))
		if err != nil {
			t.Errorf("search %s: %v", r.line, err)
			continue
		}
		same := cmp.Options{
			cmp.AllowUnexported(searchOptions{}), cmpopts.IgnoreFields(searchOptions{}, "session", "few"), cmpopts.EquateApprox(1e-9, 0),
			cmp.Comparer(func(a, b *catalog.Field) bool { return a == b }),
		}
		if diff := cmp.Diff(r.want, *got, same); diff != "" {
			t.Errorf("search %s (-want +got):\n%s", r.line, diff)
		}
	}
}

// searchOptionsOf runs search as far as its options.
func searchOptionsOf(args []string) (*searchOptions, error) {
	s := newSession(Env{Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: io.Discard,
		Getenv: func(string) string { return "" }, Now: time.Now})
	root := newRootCmd(s)
	for _, c := range root.Commands() {
		if c.Name() == "search" {
			root.RemoveCommand(c)
		}
	}
	var got *searchOptions
	root.AddCommand(newSearchCmd(s, func(_ context.Context, o *searchOptions) error {
		got = o
		return nil
	}))
	root.SetArgs(append([]string{"search"}, args...))
	err := root.ExecuteContext(context.Background())
	return got, err
}

// Few hits are read by themselves, many in whole columns: what is found is the
// same, also where several sources list a part.
func TestSearchReadsFewAndManyAlike(t *testing.T) {
	vars := atDemo(t)
	must(t, vars, "catalog", "export", "again.csv")
	must(t, vars, "import", "again.csv", "-q")
	write(t, "third.csv", "part,maker,airflow_m3h,static_pressure_pa\nLONE-1,Wirbelhof,20,30\nLONE-2,Wirbelhof,21,30\n")
	must(t, vars, "import", "third.csv", "-q")
	for _, line := range []string{
		"wirbelhof", "wirbelhof 60 --sort noise_dba", "kugellager --depth-max 20", "W60A25 --source parts.csv", "W60A25 --source again.csv", "lone", "lone --source parts.csv",
		"W60A25-12.63-3", "wirbelhof --noise-max 25 --limit 3", "wirbelhof --maker nobody", "wirbelhof --price-max 1", "nothing",
	} {
		all := searchFinds(t, vars, line, -1)
		few := searchFinds(t, vars, line, 1<<30)
		if diff := cmp.Diff(all, few); diff != "" {
			t.Errorf("search %s differs (-by columns +by themselves):\n%s", line, diff)
		}
	}
}

// searchFinds gives what a search prints and says where hits up to few are read by
// themselves.
func searchFinds(t *testing.T, vars map[string]string, line string, few int) string {
	t.Helper()
	var out, said strings.Builder
	s := newSession(Env{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &said, Getenv: func(name string) string { return vars[name] }, Now: time.Now})
	root := newRootCmd(s)
	for _, c := range root.Commands() {
		if c.Name() == "search" {
			root.RemoveCommand(c)
		}
	}
	root.AddCommand(newSearchCmd(s, func(ctx context.Context, o *searchOptions) error {
		o.few = few
		return runSearch(ctx, o)
	}))
	root.SetArgs(append([]string{"search"}, strings.Fields(line)...))
	err := root.ExecuteContext(context.Background())
	if flushed := s.out.Flush(); flushed != nil {
		t.Fatal(flushed)
	}
	return fmt.Sprint(out.String(), said.String(), err, hintOf(err))
}
