package layout

import (
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The table of pitfalls in DEVELOPERS.md names tests that exist and, of the
// questions of device check, those that are asked under that number.
func TestPitfallsAreWhereTheTableSays(t *testing.T) {
	tree := os.DirFS("../../..")
	rows := pitfallRows(t, tree)
	tests, asked := testNames(t, tree), askedPitfalls(t, tree)
	numbers := []string{}
	for _, row := range rows {
		number, checks, questions, open := row[0], row[2], row[3], row[4]
		numbers = append(numbers, number)
		if checks+questions+open == "" {
			t.Errorf("pitfall %s: neither caught, nor asked for, nor said to be open", number)
		}
		for _, name := range quoted.FindAllStringSubmatch(checks, -1) {
			if !tests[name[1]] {
				t.Errorf("pitfall %s: there is no %s", number, name[1])
			}
		}
		for _, key := range quoted.FindAllStringSubmatch(questions, -1) {
			if !slices.Contains(asked[number], key[1]) {
				t.Errorf("pitfall %s: device check does not ask for %q under it, but for %q", number, key[1], asked[number])
			}
		}
	}
	for number := range asked {
		if number != "0" && !slices.Contains(numbers, number) {
			t.Errorf("pitfall %s is asked for, but is not in the table", number)
		}
	}
}

var quoted = regexp.MustCompile("`([^`]+)`")

// pitfallRows gives the cells of the table whose first column is a number.
func pitfallRows(t *testing.T, tree fs.FS) (rows [][]string) {
	t.Helper()
	for line := range strings.Lines(read(t, tree, "DEVELOPERS.md")) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		if len(cells) != 5 {
			continue
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		var n int
		if _, err := fmt.Sscanf(cells[0], "%d", &n); err == nil {
			rows = append(rows, cells)
		}
	}
	if len(rows) < 30 {
		t.Fatalf("%d pitfalls in the table, want all", len(rows))
	}
	return rows
}

// testNames gives the names of all tests of the tree.
func testNames(t *testing.T, tree fs.FS) map[string]bool {
	t.Helper()
	names, function := map[string]bool{}, regexp.MustCompile(`(?m)^func (Test\w+)\(`)
	err := fs.WalkDir(tree, ".", func(path string, _ fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, "_test.go") {
			for _, m := range function.FindAllStringSubmatch(read(t, tree, path), -1) {
				names[m[1]] = true
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// askedPitfalls gives the keys that device check asks for, by the number of the
// pitfall: what each r.ask and r.doubt of the report names.
func askedPitfalls(t *testing.T, tree fs.FS) map[string][]string {
	t.Helper()
	files, err := fs.Glob(tree, "match/devicefile/report*.go")
	if err != nil {
		t.Fatal(err)
	}
	asked := map[string][]string{}
	for _, file := range files {
		text := read(t, tree, file)
		for _, m := range regexp.MustCompile(`\{(\d+), "[^"]*", "/?([^"]+)", `).FindAllStringSubmatch(text, -1) { // a row of TestEveryPitfallQuestion
			asked[m[1]] = append(asked[m[1]], m[2])
		}
		for _, m := range regexp.MustCompile(`(?m)(?:r\.ask\(|r\.doubt\(|\{)"([^"]+)".*, (\d+)\}`).FindAllStringSubmatch(text, -1) {
			asked[m[2]] = append(asked[m[2]], m[1])
		}
	}
	return asked
}

func read(t *testing.T, tree fs.FS, path string) string {
	t.Helper()
	text, err := fs.ReadFile(tree, path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
