package layout

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A goFile is one parsed Go file of the tree.
type goFile struct {
	path, part string // part: the folder it stands in
	test       bool
	lines      int
	text       []byte
	syntax     *ast.File
}

// imports lists the import paths of the file.
func (f goFile) imports() []string {
	var list []string
	for _, spec := range f.syntax.Imports {
		p, err := strconv.Unquote(spec.Path.Value)
		if err == nil {
			list = append(list, p)
		}
	}
	return list
}

// ours says whether p stands in the module, and names its part.
func ours(p string) (string, bool) { return strings.CutPrefix(p, "lowsone/") }

// library says whether p is of another module.
func library(p string) bool {
	first, _, _ := strings.Cut(p, "/")
	return strings.Contains(first, ".")
}

// skipped names folders that are not the project's text.
func skipped(name string) bool { return name == ".git" || name == "bin" || name == ".demo" }

// eachFile calls visit for every file of the tree.
func eachFile(t *testing.T, tree fs.FS, visit func(p string, text []byte)) {
	t.Helper()
	err := fs.WalkDir(tree, ".", func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && skipped(d.Name()):
			return fs.SkipDir
		case !d.Type().IsRegular():
			return nil
		}
		text, err := fs.ReadFile(tree, p)
		if err == nil {
			visit(p, text)
		}
		return err
	})
	if err != nil {
		t.Fatalf("reading the tree: %v", err)
	}
}

// goFiles parses the Go files of the tree, without those the go tool ignores.
func goFiles(t *testing.T, tree fs.FS) []goFile {
	t.Helper()
	var files []goFile
	eachFile(t, tree, func(p string, text []byte) {
		if path.Ext(p) != ".go" || slices.Contains(strings.Split(p, "/"), "testdata") {
			return
		}
		syntax, err := parser.ParseFile(token.NewFileSet(), p, text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatalf("parsing %v", err)
		}
		files = append(files, goFile{
			path: p, part: path.Dir(p), test: strings.HasSuffix(p, "_test.go"),
			lines: bytes.Count(text, []byte("\n")), text: text, syntax: syntax,
		})
	})
	return files
}
