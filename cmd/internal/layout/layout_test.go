package layout

// A part is one package with what it may import of the others. The parts stand
// in order: imports run from later to earlier only, and the tests of a package
// may use any earlier one. Who handles fans handles their quantities: a row with
// catalog has catalog/quantity too.
type part struct {
	path    string
	imports []string
	kind    kind
	later   bool // planned: may be missing
}

// A kind says which of the standard library a package may use.
type kind uint8

const (
	free   kind = iota
	pure        // no input or output: not the packages in impure
	kernel      // only the packages in kernelStd, no libraries but gonum
)

// all stands for every earlier part.
const all = "…"

var parts = []part{
	{path: "catalog/quantity", kind: pure},
	{path: "catalog/parallel"},
	{path: "acoustics", imports: []string{"catalog/quantity"}, kind: kernel},
	{path: "acoustics/loudness", imports: []string{"catalog/quantity", "acoustics"}, kind: kernel},
	{path: "catalog", imports: []string{"catalog/quantity", "catalog/parallel"}, kind: pure},
	{path: "catalog/tabular"},
	// partscsv weighs band levels, to hold their sum against the level stated.
	{path: "catalog/partscsv", imports: []string{"catalog", "catalog/quantity", "catalog/tabular", "acoustics"}},
	{path: "catalog/index"},
	{path: "catalog/store", imports: []string{"catalog", "catalog/quantity", "catalog/parallel", "catalog/index"}},
	// intake hands on the forced delimiter, encoding and decimal mark of tabular.
	{path: "catalog/intake", imports: []string{"catalog", "catalog/quantity", "catalog/tabular", "catalog/partscsv", "catalog/store"}},
	// recording reads tables of band levels beside sound files.
	{path: "acoustics/recording", imports: []string{"catalog/quantity", "catalog/tabular", "acoustics", "acoustics/loudness"}},
	{path: "match/air", kind: kernel},
	{path: "match/curve", imports: []string{"match/air"}, kind: kernel},
	{path: "match/thermal", imports: []string{"match/air"}, kind: kernel},
	{path: "match/drive", imports: []string{"match/air"}, kind: kernel},
	{path: "match/resistance", imports: []string{"match/air", "match/curve"}, kind: kernel},
	{path: "match", imports: []string{
		"catalog", "catalog/quantity", "catalog/parallel", "acoustics", "acoustics/loudness",
		"match/air", "match/curve", "match/thermal", "match/drive", "match/resistance",
	}, kind: pure},
	{path: "match/sample", imports: []string{
		"match", "catalog", "catalog/quantity", "acoustics", "acoustics/loudness",
		"match/air", "match/curve", "match/thermal", "match/drive", "match/resistance",
	}, kind: pure},
	{path: "match/devicefile", imports: []string{
		"match", "catalog", "catalog/quantity", "acoustics", "match/curve", "match/thermal", "match/resistance",
	}},
	{path: "match/trial", imports: []string{
		"match", "match/sample", "match/thermal", "match/devicefile", "catalog/quantity", "catalog/tabular",
	}},
	{path: "cmd/internal/order", imports: []string{"match", "catalog", "catalog/quantity"}},
	{path: "cmd/internal/view", imports: []string{all}},
	{path: "cmd/internal/chart", imports: []string{all}, later: true},
	{path: "cmd/internal/demo/gen", imports: []string{all}},
	{path: "cmd/internal/demo/gen/write", imports: []string{"cmd/internal/demo/gen"}},
	{path: "cmd/internal/demo", imports: []string{all}},
	{path: "cmd/internal/web", imports: []string{all}, later: true},
	{path: "cmd/internal/cli", imports: []string{all}},
	{path: "cmd/internal/bench", imports: []string{"cmd/internal/demo/gen"}},
	{path: "cmd/internal/endure"},
	{path: "cmd/lowsone", imports: []string{"cmd/internal/cli"}},
	{path: "cmd/internal/layout"},
}

// homes lists every library with the packages that may import it, tests
// included; "match/..." stands for all below match. helper marks libraries that
// are free outside kernels, testOnly those for tests alone. A path covers what
// lies under it; the longest one that fits counts.
var homes = map[string][]string{
	"github.com/spf13/cobra":                   {"cmd/internal/cli"},
	"github.com/spf13/pflag":                   {"cmd/internal/cli"},
	"github.com/blevesearch":                   {"catalog/index"},
	"go.etcd.io/bbolt":                         {"catalog/store"},
	"github.com/gocarina/gocsv":                {"catalog/partscsv", "cmd/internal/order"},
	"github.com/jedib0t/go-pretty/v6":          {"cmd/internal/view"},
	"gonum.org/v1/plot":                        {"cmd/internal/chart"},
	"github.com/vbauerster/mpb/v8":             {"cmd/internal/view"},
	"github.com/vbauerster/cupwriter":          {"cmd/internal/view"}, // the width of a terminal; mpb brings it
	"gonum.org/v1/gonum":                       {"match", "match/...", "acoustics", "acoustics/..."},
	"github.com/gofrs/flock":                   {"catalog/store"},
	"github.com/go-audio":                      {"acoustics/recording"},
	"github.com/xuri/excelize/v2":              {testOnly}, // writes the workbooks that tests read
	"golang.org/x/text":                        {helper},
	"github.com/agnivade/levenshtein":          {helper},
	"github.com/adrg/xdg":                      {helper},
	"github.com/google/renameio/v2":            {helper},
	"github.com/google/go-cmp":                 {testOnly},
	"github.com/goccy/go-yaml":                 {"match/devicefile"},
	"github.com/santhosh-tekuri/jsonschema/v6": {testOnly},
	"github.com/rogpeppe/go-internal":          {testOnly},
	"pgregory.net/rapid":                       {testOnly},
}

const (
	helper   = "helper"
	testOnly = "test only"
)

// kernelStd is all of the standard library that kernels may import.
var kernelStd = []string{"cmp", "errors", "fmt", "iter", "math", "slices", "sort", "strconv", "strings"}

// impure lists the standard packages that do input or output, or read the clock
// or the machine; with each what lies under it.
var impure = []string{"bufio", "database", "embed", "io", "log", "net", "os", "path/filepath", "plugin", "runtime", "syscall", "time"}

// topLevel lists what may stand at the top of the tree beside dot-files.
// Builds leave bin, *.test and *.prof there, which git ignores.
var topLevel = []string{"cmd", "catalog", "match", "acoustics", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "Makefile"}

// longest is the most lines a Go file may have; longFiles names those that are
// still one idea above it, with the reason.
const longest = 400

var longFiles = map[string]string{
	"catalog/words_header.go": "one table, the trade's header words in four languages",
}

// mainLongest is the most lines of code cmd/lowsone/main.go may have, without
// comments and blank lines.
const mainLongest = 20
