package devicefile

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

var update = flag.Bool("update", false, "rewrite the golden problems")

// Each archive holds a device file and everything that is said of it.
func TestRefused(t *testing.T) {
	files, err := filepath.Glob("testdata/refused/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no archives: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			a, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			_, err = Parse(a.Files[0].Name, a.Files[0].Data, tables)
			if err == nil {
				t.Fatal("not refused")
			}
			got := err.Error() + "\n"
			if *update && os.Getenv("CI") == "" {
				a.Files[1].Data = []byte(got)
				if err := os.WriteFile(file, txtar.Format(a), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if d := cmp.Diff(string(a.Files[1].Data), got); d != "" {
				t.Errorf("problems (-want +got):\n%s", d)
			}
		})
	}
}
