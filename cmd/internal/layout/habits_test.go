package layout

import (
	"bytes"
	"fmt"
	"go/ast"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// belowMain lists what only a main package may do: everything else takes its
// streams, its time and its end from the caller.
var belowMain = map[string][]string{
	"os":  {"Exit", "Stdin", "Stdout", "Stderr", "Args"},
	"log": {"Fatal", "Fatalf", "Fatalln", "Print", "Printf", "Println"},
	"fmt": {"Print", "Printf", "Println"},
}

// strayCalls names uses of belowMain, and init functions, below main.
func strayCalls(files []goFile) []string {
	var found []string
	for _, f := range files {
		if f.test || f.syntax.Name.Name == "main" {
			continue
		}
		ast.Inspect(f.syntax, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.SelectorExpr:
				if x, ok := n.X.(*ast.Ident); ok && slices.Contains(belowMain[x.Name], n.Sel.Name) {
					found = append(found, fmt.Sprintf("%s: %s.%s is for main", f.path, x.Name, n.Sel.Name))
				}
			case *ast.FuncDecl:
				if n.Recv == nil && n.Name.Name == "init" {
					found = append(found, f.path+": no init functions")
				}
			}
			return true
		})
	}
	return found
}

// strayUpdates names tests that rewrite golden files without asking whether they
// run in CI, where a golden file must never follow the output.
func strayUpdates(files []goFile) []string {
	var found []string
	for _, f := range files {
		if f.test && f.part != "cmd/internal/layout" &&
			bytes.Contains(f.text, []byte(`"update"`)) && !bytes.Contains(f.text, []byte(`os.Getenv("CI")`)) {
			found = append(found, f.path+`: -update is not refused where os.Getenv("CI") is set`)
		}
	}
	return found
}

// longOnes names Go files above their length.
func longOnes(files []goFile) []string {
	var found []string
	for _, f := range files {
		if f.lines > longest && longFiles[f.path] == "" {
			found = append(found, fmt.Sprintf("%s: %d lines, at most %d: one idea a file, or a reason in longFiles", f.path, f.lines, longest))
		}
		if n := codeLines(f.text); f.path == "cmd/lowsone/main.go" && n > mainLongest {
			found = append(found, fmt.Sprintf("%s: %d lines of code, at most %d: main holds streams and exit code only", f.path, n, mainLongest))
		}
	}
	return found
}

// codeLines counts the lines that are neither blank nor a comment.
func codeLines(text []byte) int {
	n := 0
	for line := range bytes.Lines(text) {
		if line = bytes.TrimSpace(line); len(line) > 0 && !bytes.HasPrefix(line, []byte("//")) {
			n++
		}
	}
	return n
}

// strayNames names what stands at the top level without a place in topLevel.
func strayNames(t *testing.T, tree fs.FS) []string {
	t.Helper()
	entries, err := fs.ReadDir(tree, ".")
	if err != nil {
		t.Fatalf("reading the top level: %v", err)
	}
	var found []string
	for _, e := range entries {
		name := e.Name()
		built := name == "bin" || path.Ext(name) == ".test" || path.Ext(name) == ".prof"
		if !strings.HasPrefix(name, ".") && !built && !slices.Contains(topLevel, name) {
			found = append(found, name+": not a name for the top level")
		}
	}
	return found
}

// machinePath matches a path into one machine's folders.
var machinePath = regexp.MustCompile("(?m)(?:^|[\\s\"'`(=:,])(?:/(?:home|root|Users|tmp|mnt|srv|work)/[\\w.-]|[A-Za-z]:\\\\Users\\\\)")

// machinePaths names text files that hold such a path.
func machinePaths(t *testing.T, tree fs.FS) []string {
	t.Helper()
	var found []string
	eachFile(t, tree, func(p string, text []byte) {
		if bytes.IndexByte(text, 0) >= 0 {
			return
		}
		if at := machinePath.FindIndex(text); at != nil {
			line := 1 + bytes.Count(text[:at[0]+1], []byte("\n"))
			found = append(found, fmt.Sprintf("%s:%d: a path of one machine", p, line))
		}
	})
	return found
}

// strayData names source files that the README beside them does not describe,
// and files it describes that are not there.
func strayData(t *testing.T, tree fs.FS) []string {
	t.Helper()
	const folder = "testdata/sources"
	files, err := fs.Glob(tree, folder+"/*.csv")
	if err != nil {
		t.Fatalf("reading %s: %v", folder, err)
	}
	readme, err := fs.ReadFile(tree, folder+"/README.md")
	if err != nil && len(files) > 0 {
		return []string{folder + ": no README.md"}
	}
	var found []string
	for _, p := range files {
		if !bytes.Contains(readme, []byte("| "+path.Base(p)+" |")) {
			found = append(found, p+": not described in README.md")
		}
	}
	for _, row := range dataRow.FindAllSubmatch(readme, -1) {
		if p := folder + "/" + string(row[1]); !slices.Contains(files, p) {
			found = append(found, p+": described in README.md, not there")
		}
	}
	return found
}

// dataRow matches a row of the README's table that begins with a file name.
var dataRow = regexp.MustCompile(`(?m)^\| (\S+\.csv) \|`)
