package layout

import (
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// TestTree holds every guard against the tree itself.
func TestTree(t *testing.T) {
	tree := os.DirFS("../../..")
	files := goFiles(t, tree)
	for _, g := range []struct {
		name  string
		found []string
	}{
		{"parts", strayParts(files)},
		{"edges", strayEdges(files)},
		{"libraries", strayLibraries(files)},
		{"standard library", strayStandard(files)},
		{"calls below main", strayCalls(files)},
		{"golden files", strayUpdates(files)},
		{"lengths", longOnes(files)},
		{"top level", strayNames(t, tree)},
		{"machine paths", machinePaths(t, tree)},
		{"sources", strayData(t, tree)},
	} {
		for _, complaint := range g.found {
			t.Errorf("%s: %s", g.name, complaint)
		}
	}
}

// TestGuardsBite breaks each rule in a tree of its own.
func TestGuardsBite(t *testing.T) {
	long := strings.Repeat("\n", longest)
	rows := []struct {
		name, path, text, want string
	}{
		{"package without a row", "catalog/extra/a.go", "package extra", "catalog/extra: package without a row in parts"},
		{"import upwards", "match/curve/a.go", "package curve\nimport _ \"lowsone/match\"", "match/curve/a.go: match/curve may not import match"},
		{"import not in the row", "match/drive/a.go", "package drive\nimport _ \"lowsone/match/curve\"", "match/drive/a.go: match/drive may not import match/curve"},
		{"test imports upwards", "catalog/a_test.go", "package catalog_test\nimport _ \"lowsone/match\"", "catalog/a_test.go: catalog may not import match"},
		{"import of no part", "match/a.go", "package match\nimport _ \"lowsone/missing\"", "match/a.go: match may not import missing"},
		{"published values outside tests", "match/a.go", "package match\nimport _ \"lowsone/testdata/sources\"", "match/a.go: match may not import testdata/sources"},
		{"library away from home", "match/a.go", "package match\nimport _ \"go.etcd.io/bbolt\"", "match/a.go: go.etcd.io/bbolt is at home in catalog/store"},
		{"sub-package away from home", "match/a.go", "package match\nimport _ \"github.com/blevesearch/bleve/v2/search\"", "match/a.go: github.com/blevesearch/bleve/v2/search is at home in catalog/index"},
		{"library without home", "match/a.go", "package match\nimport _ \"example.org/x\"", "match/a.go: example.org/x has no home in homes"},
		{"test library in code", "match/a.go", "package match\nimport _ \"pgregory.net/rapid\"", "match/a.go: pgregory.net/rapid is for tests only"},
		{"helper in a kernel", "acoustics/a.go", "package acoustics\nimport _ \"golang.org/x/text/width\"", "acoustics/a.go: golang.org/x/text/width is not for kernels"},
		{"gonum outside the kernels", "catalog/a.go", "package catalog\nimport _ \"gonum.org/v1/gonum/stat\"", "catalog/a.go: gonum.org/v1/gonum/stat is at home in match, match/..., acoustics, acoustics/..."},
		{"plot is not gonum", "match/curve/a.go", "package curve\nimport _ \"gonum.org/v1/plot\"", "match/curve/a.go: gonum.org/v1/plot is at home in cmd/internal/chart"},
		{"kernel reads the clock", "match/air/a.go", "package air\nimport _ \"time\"", `match/air/a.go: "time" is not for kernels`},
		{"catalog opens files", "catalog/a.go", "package catalog\nimport _ \"os\"", `catalog/a.go: "os" is not for a package without input and output`},
		{"pure package on the net", "match/a.go", "package match\nimport _ \"net/http\"", `match/a.go: "net/http" is not for a package without input and output`},
		{"exit below main", "cmd/internal/cli/a.go", "package cli\nimport \"os\"\nfunc f() { os.Exit(1) }", "cmd/internal/cli/a.go: os.Exit is for main"},
		{"print below main", "cmd/internal/cli/a.go", "package cli\nimport \"fmt\"\nfunc f() { fmt.Println() }", "cmd/internal/cli/a.go: fmt.Println is for main"},
		{"init", "match/a.go", "package match\nfunc init() {}", "match/a.go: no init functions"},
		{"update in CI", "match/a_test.go", "package match\nvar u = flag.Bool(\"update\", false, \"\")", `match/a_test.go: -update is not refused where os.Getenv("CI") is set`},
		{"long file", "match/a.go", "package match\n" + long, "match/a.go: 401 lines, at most 400: one idea a file, or a reason in longFiles"},
		{"long main", "cmd/lowsone/main.go", "package main\n// why\n\n" + strings.Repeat("var _ int\n", mainLongest), "cmd/lowsone/main.go: 21 lines of code, at most 20: main holds streams and exit code only"},
		{"top level", "notes.txt", "", "notes.txt: not a name for the top level"},
		{"machine path", "match/testdata/a.txt", "one\nsee /ho" + "me/me/fans.csv", "match/testdata/a.txt:2: a path of one machine"},
		{"source not described", "testdata/sources/b.csv", "", "testdata/sources: no README.md"},
		{"source described, missing", "testdata/sources/README.md", "| b.csv | what |", "testdata/sources/b.csv: described in README.md, not there"},
		{"machine path first", "a.csv", "/tm" + "p/x", "a.csv:1: a path of one machine"},
	}
	for _, r := range rows {
		found := complaints(t, fstest.MapFS{r.path: {Data: []byte(r.text)}})
		if !slices.Contains(found, r.want) {
			t.Errorf("%s: complaints = %q, want one to be %q", r.name, found, r.want)
		}
	}
}

// TestGuardsLetPass holds what is allowed against the guards.
func TestGuardsLetPass(t *testing.T) {
	rows := []struct{ name, path, text string }{
		{"edge of the table", "match/curve/a.go", "package curve\nimport _ \"lowsone/match/air\""},
		{"cmd imports any earlier part", "cmd/internal/cli/a.go", "package cli\nimport _ \"lowsone/catalog/store\""},
		{"test of a package from outside", "match/curve/a_test.go", "package curve_test\nimport _ \"lowsone/match/curve\""},
		{"test imports an earlier part", "match/drive/a_test.go", "package drive\nimport _ \"lowsone/match/curve\""},
		{"library at home", "catalog/store/a.go", "package store\nimport _ \"go.etcd.io/bbolt\""},
		{"gonum in a kernel", "match/curve/a.go", "package curve\nimport _ \"gonum.org/v1/gonum/optimize\""},
		{"helper", "catalog/a.go", "package catalog\nimport _ \"golang.org/x/text/unicode/norm\""},
		{"test reads files", "acoustics/a_test.go", "package acoustics\nimport _ \"os\""},
		{"main", "cmd/lowsone/main.go", "package main\nimport \"os\"\nfunc main() { os.Exit(0) }"},
		{"update refused in CI", "match/a_test.go", "package match\nvar u = flag.Bool(\"update\", os.Getenv(\"CI\") == \"\", \"\")"},
		{"address", "match/a.go", "package match\n// https://example.org/home/page and and/or/home/x"},
		{"dot-file and build", ".gitignore", ""},
		{"git's own", ".git/x", "/ho" + "me/me"},
	}
	for _, r := range rows {
		if found := complaints(t, fstest.MapFS{r.path: {Data: []byte(r.text)}}); len(found) > 0 {
			t.Errorf("%s: complaints = %q, want none", r.name, found)
		}
	}
}

// A source file beside a README that is silent about it.
func TestSourceNotDescribed(t *testing.T) {
	found := complaints(t, fstest.MapFS{
		"testdata/sources/README.md": {Data: []byte("| a.csv | what |\n")},
		"testdata/sources/a.csv":     {}, "testdata/sources/b.csv": {},
	})
	if want := []string{"testdata/sources/b.csv: not described in README.md"}; !slices.Equal(found, want) {
		t.Errorf("complaints = %q, want %q", found, want)
	}
}

// TestPartsRunDownwards checks the table itself: a row names earlier rows only.
func TestPartsRunDownwards(t *testing.T) {
	for i, p := range parts {
		for _, to := range p.imports {
			if j := place(to); to != all && (j < 0 || j >= i) {
				t.Errorf("parts: %s names %s, which is no earlier row", p.path, to)
			}
		}
	}
}

// complaints gathers what every guard says of a tree, but for rows of parts that
// it has no package for.
func complaints(t *testing.T, tree fstest.MapFS) []string {
	t.Helper()
	files := goFiles(t, tree)
	found := slices.Concat(
		strayParts(files), strayEdges(files), strayLibraries(files), strayStandard(files), strayCalls(files),
		strayUpdates(files), longOnes(files), strayNames(t, tree), machinePaths(t, tree), strayData(t, tree),
	)
	return slices.DeleteFunc(found, func(s string) bool { return strings.HasSuffix(s, "row in parts without a package") })
}
